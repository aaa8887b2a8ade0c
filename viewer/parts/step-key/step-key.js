/**
 * The big key: a strip of tape with the name of the next shot on it.
 *
 * show({at, of, name, detail, ends}) draws it; `press-key` is sent the moment a finger or the mouse
 * goes down, not when it is lifted. feel(kind, words) answers a press: 'down', 'sent', 'done',
 * 'failed', 'still' (nothing comes after).
 */
const DOWN_MILLIS = 160;

class StepKey extends HTMLElement {
  #button = document.createElement('button');
  #label = document.createElement('span');
  #name = document.createElement('span');
  #detail = document.createElement('span');
  #answer = document.createElement('span');
  #lift = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#button.type = 'button';
    this.#label.className = 'label';
    this.#name.className = 'name';
    this.#detail.className = 'detail';
    this.#answer.className = 'answer';
    this.#answer.setAttribute('role', 'status');
    const tape = document.createElement('span');
    tape.className = 'tape';
    tape.append(this.#label, this.#name, this.#detail);
    this.#button.append(tape);
    this.append(this.#button, this.#answer);
    this.#label.textContent = 'Waiting for the computer';
    this.#button.addEventListener('pointerdown', (event) => {
      if (event.button !== 0 || !event.isPrimary) return;
      this.#press();
    });
    // A click without a pointer comes from a screen reader or a switch; the page has the keyboard.
    this.#button.addEventListener('click', (event) => {
      if (event.detail === 0) this.#press();
    });
    this.#button.addEventListener('contextmenu', (event) => event.preventDefault());
  }

  #press() {
    this.dispatchEvent(new CustomEvent('press-key'));
  }

  /**
   * @param {object} next
   * @param {string} next.label what the press does
   * @param {string} next.name of the next shot, or what there is to say instead
   * @param {string} next.detail a quiet line below
   * @param {boolean} next.ends true when a press does nothing
   */
  show(next) {
    set(this.#label, next.label);
    set(this.#name, next.name);
    set(this.#detail, next.detail);
    this.#button.setAttribute('aria-disabled', String(next.ends));
    this.classList.toggle('ends', next.ends);
    this.classList.toggle('long', next.name.length > 24);
  }

  /** @param {'down'|'sent'|'done'|'failed'|'still'} kind @param {string} words */
  feel(kind, words = '') {
    if (kind === 'down') {
      this.classList.add('down');
      clearTimeout(this.#lift);
      this.#lift = setTimeout(() => this.classList.remove('down'), DOWN_MILLIS);
      navigator.vibrate?.(25);
      return;
    }
    if (kind === 'failed') navigator.vibrate?.([70, 60, 70, 60, 70]);
    this.classList.toggle('sent', kind === 'sent');
    this.classList.toggle('failed', kind === 'failed');
    set(this.#answer, words);
  }
}

function set(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

customElements.define('step-key', StepKey);
