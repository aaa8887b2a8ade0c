import { same } from '../../live/document.js';
import { element, key, put } from './dom.js';
import { keys } from './fields.js';

/**
 * Who is in the picture: tapped in the order in which they stand, left to right. What is tapped is a
 * proposal until 'use these', since half a row fits no arrangement.
 *
 * show(names, everybody, all): who is in it, whether the plan leaves that out, the whole band.
 * send(names), undefined for everybody.
 */
export class PeopleField {
  element = element('div', 'field names');
  #row = element('div', 'row');
  #order = element('p', 'says');
  #use = key('Use these', () => this.#done());
  #again = key('Tap anew', () => this.#pick([]));
  #stop = key('As it was', () => this.#pick(null));
  #everybody = key('Everybody', () => this.#send(undefined));
  #refusal = element('p', 'refusal');
  #names = [];
  #picked = null;
  #send;

  constructor(send) {
    this.#send = (names) => {
      this.refuse('');
      this.#picked = null;
      send(names);
      this.#draw();
    };
    this.#refusal.setAttribute('role', 'alert');
    this.#order.setAttribute('role', 'status');
    this.#row.setAttribute('role', 'group');
    this.#row.setAttribute('aria-label', 'People, left to right');
    const whole = element('div', 'row');
    whole.append(this.#use, this.#stop, this.#again, this.#everybody);
    this.element.append(
      element('span', 'label', 'People, left to right as the camera sees them'),
      this.#row,
      this.#order,
      whole,
      this.#refusal,
    );
  }

  refuse(words) {
    put(this.#refusal, words);
    this.element.classList.toggle('refused', words !== '');
  }

  show(names, everybody, all) {
    if (!same(names, this.#names)) this.#picked = null;
    this.#names = names;
    this.#everybody.setAttribute('aria-pressed', String(everybody));
    keys(this.#row, all, (name) => this.#tap(name));
    this.#draw();
  }

  /** Another shot is shown. */
  forget() {
    this.#picked = null;
    this.refuse('');
  }

  #tap(name) {
    const now = this.#picked ?? this.#names;
    this.#pick(now.includes(name) ? now.filter((one) => one !== name) : [...now, name]);
  }

  #pick(names) {
    this.refuse('');
    this.#picked = names !== null && same(names, this.#names) ? null : names;
    this.#draw();
  }

  #done() {
    if (this.#picked.length > 0) this.#send(this.#picked);
  }

  #draw() {
    const open = this.#picked !== null;
    const now = this.#picked ?? this.#names;
    for (const one of this.#row.children) {
      const place = now.indexOf(one.value);
      one.setAttribute('aria-pressed', String(place >= 0));
      put(one, place < 0 ? one.value : `${place + 1} ${one.value}`);
    }
    this.#use.hidden = !open;
    this.#use.setAttribute('aria-disabled', String(now.length === 0));
    this.#stop.hidden = !open;
    this.element.classList.toggle('open', open);
    const row = now.length === 0 ? 'Tap them from left to right.' : now.join(', ');
    put(this.#order, open ? `Not used yet: ${row}` : row);
  }
}
