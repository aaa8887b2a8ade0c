import { atAnEnd, canDo } from '../../live/lighting.js';

/** What stands on the keys: where there is room, and where there is little. */
const KEYS = [
  { what: 'darker', long: 'darker', short: '−' },
  { what: 'brighter', long: 'brighter', short: '+' },
  { what: 'colder', long: 'colder', short: 'cold' },
  { what: 'warmer', long: 'warmer', short: 'warm' },
];

/** One light: what it does, and its keys. */
export class LampLine {
  element = document.createElement('li');
  #name;
  #press;
  #texts = {};
  #keys = new Map();
  #turn;

  /**
   * @param {string} name of the light
   * @param {number} number that chooses it on a keyboard; above 9 there is none
   * @param {(wish: object, event: Event) => void} press
   */
  constructor(name, number, press) {
    this.#name = name;
    this.#press = press;
    const words = document.createElement('p');
    words.className = 'words';
    const head = document.createElement('b');
    head.className = 'name';
    if (number <= 9) head.append(text('span', 'number', String(number)), ' ');
    head.append(name);
    words.append(head);
    const extra = document.createElement('p');
    extra.className = 'extra';
    for (const [what, place] of [
      ['level', words],
      ['measured', words],
      ['changed', extra],
      ['limits', extra],
    ]) {
      this.#texts[what] = text('span', what, '');
      place.append(' ', this.#texts[what]);
    }
    this.#texts.limits.id = `limits-of-light-${number}`;
    const keys = document.createElement('div');
    keys.className = 'keys';
    keys.setAttribute('role', 'group');
    keys.setAttribute('aria-label', name);
    for (const key of KEYS) keys.append(this.#key(key));
    this.#turn = this.#key({ what: 'off', long: 'off', short: 'off' });
    keys.append(this.#turn);
    this.element.append(words, extra, keys);
  }

  /** @param {object} lamp of the crew message @param {object} light the part it is in */
  show(lamp, light) {
    this.element.classList.toggle('dark', !lamp.on);
    this.element.classList.toggle('moved', lamp.changed !== '');
    put(this.#texts.level, lamp.level);
    put(this.#texts.measured, lamp.measured);
    put(this.#texts.changed, lamp.changed);
    put(this.#texts.limits, atAnEnd(lamp) && lamp.limits !== '' ? `goes ${lamp.limits}` : '');
    const turn = lamp.can.includes('on') || (!lamp.on && !lamp.can.includes('off')) ? 'on' : 'off';
    if (this.#turn.dataset.what !== turn) {
      this.#turn.dataset.what = turn;
      this.#label(this.#turn, turn, turn);
    }
    for (const key of this.#keys.values()) {
      const wish = { do: key.dataset.what, light: this.#name };
      key.setAttribute('aria-disabled', String(!canDo(light, wish)));
    }
  }

  /** @param {boolean} chosen by the keyboard, or pressed last */
  choose(chosen) {
    this.element.classList.toggle('chosen', chosen);
    if (chosen) this.element.setAttribute('aria-current', 'true');
    else this.element.removeAttribute('aria-current');
  }

  #key({ what, long, short }) {
    const key = document.createElement('button');
    key.type = 'button';
    key.dataset.what = what;
    key.setAttribute('aria-describedby', this.#texts.limits.id);
    this.#label(key, long, short);
    key.addEventListener('click', (event) => {
      this.#press({ do: key.dataset.what, light: this.#name }, event);
    });
    this.#keys.set(what, key);
    return key;
  }

  #label(key, long, short) {
    key.replaceChildren(text('span', 'long', long), text('span', 'short', short));
    key.setAttribute('aria-label', `${this.#name} ${long}`);
  }
}

function text(kind, className, words) {
  const element = document.createElement(kind);
  element.className = className;
  element.textContent = words;
  return element;
}

function put(element, words) {
  if (element.textContent !== words) element.textContent = words;
}
