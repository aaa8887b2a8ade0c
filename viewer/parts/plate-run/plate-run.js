import { thumbUrl } from '../../live/sample.js';

/**
 * Plates: frames with each light alone, taken one after the other, and what became of them.
 *
 * show(plates): the part of the crew message. Sends 'plates-do' (detail: the press: {do: 'begin',
 * standIn}, {do: 'again', id, step} with the first step 1, {do: 'use'|'give up'|'nothing moved'
 * |'forget', id}).
 */
class PlateRun extends HTMLElement {
  #what = make('p', 'what', WHAT);
  #now = make('div', 'now');
  #asked = make('div', 'asked');
  #doubts = make('ul', 'doubts');
  #keys = make('div', 'keys');
  #who = make('fieldset', 'who');
  #steps = make('ol', 'steps');
  #plates = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#now.setAttribute('role', 'status');
    this.#asked.setAttribute('role', 'status');
    this.#fillWho();
    const rolls = make('div', 'rolls');
    rolls.append(this.#what, this.#now, this.#asked, this.#doubts);
    rolls.append(this.#who, this.#keys, this.#steps);
    this.append(rolls);
  }

  show(plates) {
    const key = JSON.stringify(plates);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#plates = plates;
    const taking = plates.state === 'taking';
    this.classList.toggle('taking', taking);
    this.classList.toggle('waits', plates.waits || plates.byHand);
    this.#what.hidden = taking;
    this.#now.replaceChildren(...(taking ? whatIsLit(plates) : whatThereIs(plates)));
    this.#asked.replaceChildren(...question(plates));
    this.#doubts.replaceChildren(...plates.doubts.map((words) => make('li', '', words)));
    this.#who.hidden = taking;
    const focused = document.activeElement?.closest('plate-run button')?.value;
    this.#keys.replaceChildren(...this.#keysOf(plates));
    this.#steps.replaceChildren(...plates.steps.map((one, i) => this.#step(one, i + 1)));
    if (focused !== undefined) {
      [...this.querySelectorAll('button')].find((one) => one.value === focused)?.focus();
    }
  }

  #keysOf(plates) {
    const { id, state } = plates;
    if (state === 'taking') {
      const keys = [];
      if (plates.waits) keys.push(this.#again('Take it again', plates.at));
      if (plates.waits && plates.canUse) keys.push(this.#key('Use it all the same', 'use', { id }));
      return [...keys, this.#key('Give up', 'give up', { id })];
    }
    const keys = [];
    if (plates.question !== '') keys.push(this.#key('Nothing moved', 'nothing moved', { id }));
    else if (state === 'stale') keys.push(this.#key('They are still good', 'nothing moved', { id }));
    keys.push(this.#begin(state === 'none' ? 'Take plates' : 'Take them again'));
    if (state !== 'none') keys.push(this.#key('Forget them', 'forget', { id }));
    return keys;
  }

  #begin(words) {
    const key = this.#button('begin', words, () => ({
      do: 'begin',
      standIn: this.#who.querySelector('input:checked').value === 'stand-in',
    }));
    key.classList.add('begin');
    key.append(make('span', 'takes', takes(this.#plates)));
    return key;
  }

  #key(words, what, rest) {
    return this.#button(what, words, () => ({ do: what, ...rest }));
  }

  #again(words, step) {
    return this.#button(`again ${step}`, words, () => ({ do: 'again', id: this.#plates.id, step }));
  }

  #button(value, words, wish) {
    const button = make('button', 'small', words);
    button.type = 'button';
    button.value = value;
    button.addEventListener('click', (event) => {
      if (event.detail > 0) button.blur();
      this.dispatchEvent(new CustomEvent('plates-do', { detail: wish() }));
    });
    return button;
  }

  #step({ name, frame, says }, step) {
    const item = make('li', step === this.#plates.at ? 'lit' : '');
    if (frame > 0) {
      const image = make('img');
      image.alt = '';
      image.loading = 'lazy';
      image.src = thumbUrl({ number: frame, url: `/frames/${frame}.jpg` });
      item.append(image);
    } else {
      item.append(make('span', 'no-picture', String(step)));
    }
    const words = make('div', 'words');
    words.append(make('span', 'name', name));
    if (says !== '') words.append(make('span', 'says', says));
    item.append(words);
    const due = this.#plates.state === 'taking' && step === this.#plates.at;
    if (frame > 0 && !due) {
      const again = this.#again('Again', step);
      again.setAttribute('aria-label', `Take ${name} again`);
      item.append(again);
    }
    return item;
  }

  #fillWho() {
    const legend = make('legend', '', 'Who stands there?');
    this.#who.append(legend);
    for (const [value, words] of [
      ['stand-in', 'One stand-in'],
      ['people', 'The people of the shot'],
    ]) {
      const label = make('label');
      const input = make('input');
      Object.assign(input, { type: 'radio', name: 'who', value, checked: value === 'stand-in' });
      label.append(input, ` ${words}`);
      this.#who.append(label);
    }
  }
}

const WHAT =
  'One frame with the house only and one with each light alone, the camera standing still: from them every look of the plan is seen on real pixels.';

function whatIsLit({ lit, at, steps, says, byHand }) {
  const parts = [
    make('p', 'count', `${at} of ${steps.length}`),
    make('p', 'lit', lit),
  ];
  const words = byHand ? `${says}: ${at} of ${steps.length}, ${lit}` : says;
  if (words !== '') parts.push(make('p', 'says', words));
  return parts;
}

function whatThereIs({ state, says, taken, shot, standIn }) {
  const whose = `${shot === '' ? '' : ` for ‘${shot}’`}${standIn ? ', with one stand-in' : ''}`;
  const head = {
    none: '',
    working: `Taken ${taken}${whose}`,
    ready: `✓ Taken ${taken}${whose}`,
    stale: `✕ Taken ${taken}${whose}: no longer good`,
    useless: `✕ Taken ${taken}${whose}: nothing comes of them`,
  }[state];
  return [make('p', 'head', head), make('p', 'says', says)].filter(
    (one) => one.textContent !== '',
  );
}

function question({ question: why }) {
  if (why === '') return [];
  return [make('p', 'question', `Has anything moved since? Camera, lights, house: ${why}.`)];
}

function takes({ frames, seconds, state, shot }) {
  const long = seconds < 90 ? `${Math.round(seconds / 5) * 5} s` : `${Math.round(seconds / 60)} min`;
  const whose = state === 'none' && shot !== '' ? ` for ‘${shot}’` : '';
  return `${frames} frames${whose}, about ${long}`;
}

function make(kind, className = '', words = '') {
  const element = document.createElement(kind);
  if (className !== '') element.className = className;
  element.textContent = words;
  return element;
}

customElements.define('plate-run', PlateRun);
