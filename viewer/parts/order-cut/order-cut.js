import { spanWords } from '../../live/spans.js';

/**
 * Less time, or more: a key that opens the spans to choose from, what came of it, and the way back.
 *
 * show(cut, names): the part of the crew message; names of the shots that do not fit.
 * key(key): a key of the keyboard; true if it meant something here.
 * Sends 'cut-do' (detail: {seconds: number|null} or {back: true}) and 'opened' (detail: whether).
 * With the attribute `words` the least of what came of it stands by the key also while it is closed.
 */
class OrderCut extends HTMLElement {
  #open = button('open');
  #fit = document.createElement('span');
  #sheet = document.createElement('div');
  #spans = document.createElement('div');
  #best = button('small best');
  #back = button('small back');
  #said = document.createElement('p');
  #brief = document.createElement('p');
  #presets = [];

  connectedCallback() {
    if (this.firstChild !== null) return;
    const name = document.createElement('span');
    name.append('Less / more time ', by('T'));
    this.#fit.className = 'fit';
    this.#open.append(name, this.#fit);
    this.#open.setAttribute('aria-expanded', 'false');
    this.#sheet.className = 'sheet';
    this.#sheet.hidden = true;
    this.#sheet.setAttribute('role', 'group');
    this.#sheet.setAttribute('aria-label', 'How much time is left');
    this.#spans.className = 'spans';
    this.#said.className = 'said';
    this.#said.setAttribute('role', 'status');
    this.#back.textContent = 'Take back';
    this.#back.hidden = true;
    const ask = document.createElement('p');
    ask.className = 'ask';
    ask.textContent = 'Time from now';
    const rest = document.createElement('div');
    rest.className = 'rest';
    rest.append(this.#best, this.#back);
    this.#sheet.append(ask, this.#spans, rest);
    this.#sheet.append(this.#said);
    this.#brief.className = 'brief';
    this.append(this.#open, this.#sheet);
    if (this.hasAttribute('words')) this.append(this.#brief);
    this.#click(this.#open, () => this.toggle(this.#sheet.hidden));
    this.#click(this.#best, () => this.#send({ seconds: null }));
    this.#click(this.#back, () => this.#send({ back: true }));
    this.addEventListener('keydown', ({ key }) => {
      if (key === 'Escape') this.toggle(false);
    });
  }

  get opened() {
    return !this.#sheet.hidden;
  }

  show(cut, names) {
    const key = JSON.stringify([cut, names]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#showSpans(cut.presets);
    this.#best.textContent = cut.better === '' ? 'Best order for the clock' : capital(cut.better);
    this.#best.classList.toggle('wanted', cut.better !== '');
    this.#back.hidden = !cut.canTakeBack;
    const quiet = cut.fits && !this.hasAttribute('words');
    this.#fit.textContent = quiet ? '' : cut.fitSays;
    this.#brief.textContent = [cut.says, cut.pace].filter((words) => words !== '').join('; ');
    this.classList.toggle('short', !cut.fits);
    const falls = names.length === 0 ? '' : `Falls off: ${names.join('; ')}`;
    const lines = [cut.says, capital(cut.fitSays), falls, capital(cut.pace)];
    this.#said.replaceChildren(
      ...lines
        .filter((words) => words !== '')
        .map((words) => {
          const line = document.createElement('span');
          if (words === cut.says) line.className = 'cut';
          else if (!cut.fits && (words === falls || words === capital(cut.fitSays))) {
            line.className = 'falls';
          }
          line.textContent = words;
          return line;
        }),
    );
  }

  /** T opens and closes; while it is open, 1 to 5 are the spans. */
  key(key) {
    if (key === 't') {
      this.toggle(this.#sheet.hidden);
      return true;
    }
    if (this.#sheet.hidden) return false;
    if (key === 'Escape') {
      this.toggle(false);
      return true;
    }
    const preset = /^[1-9]$/.test(key) ? this.#presets[Number(key) - 1] : undefined;
    if (preset === undefined) return false;
    this.#send({ seconds: preset });
    return true;
  }

  toggle(open) {
    if (open === !this.#sheet.hidden) return;
    const inside = this.#sheet.contains(document.activeElement);
    this.#sheet.hidden = !open;
    this.#open.setAttribute('aria-expanded', String(open));
    if (inside) this.#open.focus();
    this.dispatchEvent(new CustomEvent('opened', { detail: open }));
  }

  #showSpans(presets) {
    if (presets.join() === this.#presets.join()) return;
    this.#presets = presets;
    this.#spans.replaceChildren(
      ...presets.map((seconds, index) => {
        const key = button('span');
        key.append(spanWords(seconds), ' ', by(String(index + 1)));
        this.#click(key, () => this.#send({ seconds }));
        return key;
      }),
    );
  }

  #send(detail) {
    this.dispatchEvent(new CustomEvent('cut-do', { detail }));
  }

  /** The focus goes back after a finger or the mouse: the space bar is the step. */
  #click(key, act) {
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      act();
    });
  }
}

function button(className) {
  const made = document.createElement('button');
  made.type = 'button';
  made.className = className;
  return made;
}

function by(letter) {
  const key = document.createElement('kbd');
  key.textContent = letter;
  return key;
}

const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

customElements.define('order-cut', OrderCut);
