import { kelvinOf, miredOf, MIRED_LEAST, MIRED_MOST, MIRED_STEP } from '../../live/scales.js';
import { element, key, newId, put } from './dom.js';

/**
 * Fields of a form. Each has an element, show(value) for what the plan has (undefined if it says
 * nothing), and calls send(value) when somebody has changed it; undefined leaves it out. What is being
 * typed stays, whatever is shown meanwhile.
 */
class Field {
  element = element('div', 'field');
  /** Words beside the field: why it was not taken. */
  refusal = element('p', 'refusal');

  constructor(label, kind) {
    this.element.classList.add(kind);
    this.label = element('label', 'label', label);
    this.refusal.setAttribute('role', 'alert');
    this.refusal.id = newId();
    this.element.append(this.label);
  }

  /** @param {string} words '' when all is well */
  refuse(words) {
    put(this.refusal, words);
    this.element.classList.toggle('refused', words !== '');
  }

  /** @param {HTMLElement} control */
  named(control) {
    control.id = newId();
    this.label.htmlFor = control.id;
    control.setAttribute('aria-describedby', this.refusal.id);
    return control;
  }
}

/** A line of text, a number, or several lines. */
class Typed extends Field {
  #dirty = false;
  #shown = '';

  constructor(label, kind, control) {
    super(label, kind);
    this.control = this.named(control);
    this.control.autocomplete = 'off';
    this.control.spellcheck = false;
    this.control.addEventListener('input', () => this.#type(true));
    this.control.addEventListener('change', () => this.#changed());
    this.control.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape' || !this.#dirty) return;
      // As it was; a second Escape closes the desk.
      event.preventDefault();
      event.stopPropagation();
      this.#type(false);
      this.control.value = this.#shown;
      this.refuse('');
    });
    this.element.append(this.control, this.refusal);
  }

  put(text) {
    this.#shown = text;
    if (this.#dirty && document.activeElement === this.control) return;
    this.#type(false);
    if (this.control.value !== text) this.control.value = text;
  }

  /** The page's undo leaves a field alone that has letters of its own to undo. */
  #type(on) {
    this.#dirty = on;
    this.control.toggleAttribute('data-typing', on);
  }

  #changed() {
    this.#type(false);
    this.refuse('');
    if (this.control.value !== this.#shown) this.take(this.control.value.trim());
  }
}

export class TextField extends Typed {
  #send;

  /** @param {boolean} needed an empty one is sent as it is, for the plan to refuse */
  constructor(label, send, { needed = false, hint = '' } = {}) {
    super(label, 'text', element('input'));
    this.control.type = 'text';
    this.control.placeholder = hint;
    this.#send = send;
    this.needed = needed;
  }

  show(value) {
    this.put(value === undefined ? '' : String(value));
  }

  take(text) {
    this.#send(text === '' && !this.needed ? undefined : text);
  }
}

/** A list of lines, or one. */
export class LinesField extends Typed {
  #send;

  constructor(label, send) {
    super(label, 'lines', element('textarea'));
    this.control.rows = 3;
    this.#send = send;
  }

  show(value) {
    this.put([value ?? []].flat().join('\n'));
  }

  take(text) {
    const lines = text.split('\n').map((line) => line.trim()).filter((line) => line !== '');
    this.#send(lines.length === 0 ? undefined : lines);
  }
}

/**
 * A number, or what looks like one, with a key for less and one for more. What the plan leaves out
 * shows as what it then is, quietly.
 */
export class StepField extends Typed {
  #send;
  #step;
  #format;
  #read;
  #value;
  #otherwise;
  #reset = null;

  /**
   * @param {(value: any, reason: 'typed'|'stepped') => void} send
   * @param {object} how
   * @param {(value: any, way: 1|-1) => any} how.step the next value
   * @param {string} how.unit behind the label
   * @param {string|null} how.reset words of the key that leaves it out; null for none
   */
  constructor(label, send, { step, unit = '', reset = null, format = String, read = readNumber }) {
    super(unit === '' ? label : `${label}, ${unit}`, 'steps', element('input'));
    this.control.type = 'text';
    this.control.inputMode = 'decimal';
    this.#send = send;
    this.#step = step;
    this.#format = format;
    this.#read = read;
    const row = element('div', 'row');
    const less = key('−', () => this.#stepped(-1), 'step');
    const more = key('+', () => this.#stepped(1), 'step');
    less.setAttribute('aria-label', `${label} less`);
    more.setAttribute('aria-label', `${label} more`);
    row.append(less, this.control, more);
    if (reset !== null) {
      this.#reset = key(reset, () => this.#send(undefined, 'typed'), 'small reset');
      row.append(this.#reset);
    }
    this.element.insertBefore(row, this.refusal);
    this.control.addEventListener('keydown', (event) => {
      const way = { ArrowUp: 1, ArrowDown: -1 }[event.key];
      if (way === undefined) return;
      event.preventDefault();
      this.control.blur();
      this.control.focus();
      this.#stepped(way);
    });
  }

  /** @param {any} otherwise what holds if the plan says nothing */
  show(value, otherwise) {
    this.#value = value;
    this.#otherwise = otherwise;
    this.element.classList.toggle('left-out', value === undefined);
    const shown = value ?? otherwise;
    this.put(shown === undefined ? '' : this.#format(shown));
    if (this.#reset !== null) this.#reset.hidden = value === undefined;
  }

  take(text) {
    if (text === '') {
      this.#send(undefined, 'typed');
      return;
    }
    const value = this.#read(text);
    if (value === null) {
      this.refuse('Write a number.');
      this.show(this.#value, this.#otherwise);
    } else if (value !== this.#value) {
      this.#send(value, 'typed');
    }
  }

  #stepped(way) {
    const from = this.#value ?? this.#otherwise;
    if (from === undefined) return;
    const to = this.#step(from, way);
    this.refuse('');
    if (to !== this.#value) this.#send(to, 'stepped');
  }
}

/** One of some words. */
export class ChoiceField extends Field {
  #send;
  #select;
  #options = '';

  /** @param {string|null} none words for leaving it out; null if it must be there */
  constructor(label, send, { none = null } = {}) {
    super(label, 'choice');
    this.#send = send;
    this.none = none;
    this.#select = this.named(element('select'));
    this.#select.addEventListener('change', () => {
      this.refuse('');
      this.#send(this.#select.value === '' ? undefined : this.#select.value);
    });
    this.element.append(this.#select, this.refusal);
  }

  /** @param {(string|[string, string])[]} options values, or values with words */
  show(value, options) {
    const pairs = options.map((one) => (Array.isArray(one) ? one : [one, one]));
    if (this.none !== null) pairs.unshift(['', this.none]);
    const text = value === undefined ? '' : typeof value === 'object' ? JSON.stringify(value) : String(value);
    // Whatever somebody wrote by hand stands there too.
    if (!pairs.some(([one]) => one === text)) pairs.push([text, text === '' ? 'not chosen' : text]);
    const key = JSON.stringify(pairs);
    if (key !== this.#options) {
      this.#options = key;
      this.#select.replaceChildren(...pairs.map(([one, words]) => new Option(words, one)));
    }
    this.#select.value = text;
  }
}

/** A few words side by side, one of them chosen. */
export class SwitchField extends Field {
  #keys;

  /** @param {[string, string][]} options values with words */
  constructor(label, send, options) {
    super(label, 'switch');
    this.label.htmlFor = '';
    const row = element('div', 'row');
    row.setAttribute('role', 'group');
    row.setAttribute('aria-label', label);
    this.#keys = options.map(([value, words]) => {
      const one = key(words, () => {
        this.refuse('');
        if (one.getAttribute('aria-pressed') !== 'true') send(value);
      });
      one.value = value;
      return one;
    });
    row.append(...this.#keys);
    this.element.append(row, this.refusal);
  }

  get keys() {
    return this.#keys;
  }

  show(value) {
    for (const one of this.#keys) one.setAttribute('aria-pressed', String(one.value === value));
  }
}

/** Several of some names, in the order in which they are named. */
export class NamesField extends Field {
  #row = element('div', 'row');
  #send;
  #value = [];

  constructor(label, send) {
    super(label, 'names');
    this.#send = send;
    this.#row.setAttribute('role', 'group');
    this.#row.setAttribute('aria-label', label);
    this.element.append(this.#row, this.refusal);
  }

  show(value, names) {
    this.#value = value;
    keys(this.#row, names, (name) => {
      this.refuse('');
      const there = this.#value.includes(name);
      this.#send(there ? this.#value.filter((one) => one !== name) : [...this.#value, name]);
    });
    for (const one of this.#row.children) {
      one.setAttribute('aria-pressed', String(value.includes(one.value)));
    }
  }
}

/** As many keys as names; the keys that are there stay. */
export function keys(row, names, press) {
  if (JSON.stringify(names) === row.dataset.names) return;
  row.dataset.names = JSON.stringify(names);
  row.replaceChildren(
    ...names.map((name) => {
      const one = key(name, () => press(name));
      one.value = name;
      return one;
    }),
  );
}

/** From one end to the other; moved without a word, sent when it is let go. */
export class SlideField extends Field {
  #input = element('input');
  #words = element('output');
  #held = false;
  #from;
  #to;
  #format;

  constructor(label, send, { least, most, step, format = String, from = Number, to = Number, kind = '' }) {
    super(label, 'slide');
    if (kind !== '') this.element.classList.add(kind);
    this.#from = from;
    this.#to = to;
    this.#format = format;
    Object.assign(this.named(this.#input), { type: 'range', min: least, max: most, step });
    const say = () => {
      const words = this.#format(this.#to(Number(this.#input.value)));
      put(this.#words, words);
      this.#input.setAttribute('aria-valuetext', words);
    };
    this.#input.addEventListener('input', () => {
      this.#held = true;
      say();
    });
    this.#input.addEventListener('change', () => {
      this.#held = false;
      this.refuse('');
      send(this.#to(Number(this.#input.value)), 'stepped');
    });
    this.say = say;
    this.element.append(this.#words, this.#input, this.refusal);
  }

  show(value) {
    if (this.#held || !Number.isFinite(value)) return;
    this.#input.value = String(this.#from(value));
    const words = this.#format(value);
    put(this.#words, words);
    this.#input.setAttribute('aria-valuetext', words);
  }
}

/** Steps of mired, as the eye has them about even, in kelvin. From cold to warm. */
export function kelvinSlide(label, send) {
  return new SlideField(label, send, {
    least: MIRED_LEAST,
    most: MIRED_MOST,
    step: MIRED_STEP,
    from: miredOf,
    to: kelvinOf,
    format: (kelvin) => `${kelvin} K`,
    kind: 'mired',
  });
}

/** A word of some, or a colour of one's own: shares of light sent back, 0 to 1, linear. */
export class ClothField extends Field {
  #choice;
  #own = element('input');
  #send;

  constructor(label, send, { none }) {
    super(label, 'cloth');
    this.#send = send;
    this.#choice = new ChoiceField(label, (value) => {
      if (value === OWN) this.#send(sharesOf(this.#own.value));
      else if (value?.startsWith('[') !== true) this.#send(value);
    }, { none });
    this.label.remove();
    this.#own.type = 'color';
    this.#own.setAttribute('aria-label', `${label}, a colour of its own`);
    this.#own.addEventListener('change', () => this.#send(sharesOf(this.#own.value)));
    const row = element('div', 'row');
    row.append(this.#choice.element, this.#own);
    this.element.append(row, this.refusal);
  }

  show(value, words) {
    const own = Array.isArray(value);
    this.#choice.show(own ? OWN : value, [...words, [OWN, 'own colour']]);
    this.#own.hidden = !own;
    if (own && document.activeElement !== this.#own) this.#own.value = hexOf(value);
  }
}

const OWN = 'own';

/** The curve of sRGB (IEC 61966-2-1), there and back. */
function hexOf(shares) {
  const digit = (share) => {
    const v = share <= 0.0031308 ? 12.92 * share : 1.055 * share ** (1 / 2.4) - 0.055;
    return Math.round(255 * Math.min(1, Math.max(0, v))).toString(16).padStart(2, '0');
  };
  return `#${shares.map(digit).join('')}`;
}

function sharesOf(hex) {
  return [1, 3, 5].map((i) => {
    const v = parseInt(hex.slice(i, i + 2), 16) / 255;
    const share = v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
    return Math.round(share * 100) / 100;
  });
}

function readNumber(text) {
  const value = Number(text.replace(',', '.').replace(/[^\d.+-]+$/, ''));
  return text !== '' && Number.isFinite(value) ? value : null;
}
