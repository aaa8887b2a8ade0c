import { at, setting } from '../../live/document.js';
import { element } from './dom.js';

/** Letters of a value in words for undo. */
const LONGEST = 40;

/**
 * A form of one entry of the plan. A form knows its entry by the path that show() was given last; its
 * fields stay while the entry changes below them.
 *
 * `ask(edits, {says, merge, about})` is called for what somebody has changed; about is the field.
 */
export class EntryForm {
  element = element('div', 'form');
  #ask;
  #shown = [];
  view = null;

  constructor(ask) {
    this.#ask = ask;
  }

  /** @param {{document: object, known: object, path: object[], index: number}} view */
  show(view) {
    this.view = view;
    for (const [field, get] of this.#shown) field.show(...get(this.entry, view));
  }

  /** The entry as it is shown. */
  get entry() {
    return at(this.view.document, this.view.path);
  }

  /** What the entry is called in words for undo. */
  get called() {
    return this.entry?.name ?? '';
  }

  add(field, get, place = this.element) {
    place.append(field.element);
    this.#shown.push([field, get]);
    return field;
  }

  /** A field for a key of the entry: made by make(send), shown as it is in the plan. */
  keyed(keys, make, get = (value) => [value], place = this.element) {
    const steps = [keys].flat();
    const field = make((value, reason) => this.set(steps, value, field, reason));
    return this.add(field, (entry, view) => get(at(entry, steps), entry, view), place);
  }

  /** Sets a key of the entry, or leaves it out. */
  set(steps, value, about, reason = 'typed') {
    this.setAt([...this.view.path, ...steps], value, about, reason);
  }

  setAt(path, value, about, reason = 'typed') {
    const edit = setting(this.view.document, path, value);
    if (edit === null) return;
    const { called } = this;
    const what = called.endsWith(String(path.at(-1))) ? called : `${called}, ${path.at(-1)}`;
    const says = ({ was, value: now }) => `${what}: ${brief(was)} is now ${brief(now)}`;
    this.ask([edit], says, about, reason === 'stepped' ? JSON.stringify(path) : null);
  }

  ask(edits, says, about = null, merge = null) {
    this.#ask(edits, { says, merge, about });
  }
}

/** A row of fields below a heading. */
export function section(form, words, className = '') {
  const group = element('section', `group ${className}`);
  group.append(element('h3', '', words));
  const row = element('div', 'fields');
  group.append(row);
  form.element.append(group);
  return row;
}

/** A value of the plan in a few words. */
function brief(value) {
  const text = inWords(value);
  return text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text;
}

function inWords(value) {
  if (value === undefined || value === null) return 'not there';
  if (Array.isArray(value)) return value.map(inWords).join(', ');
  if (typeof value !== 'object') return String(value);
  if (typeof value.name === 'string') return value.name;
  return Object.entries(value)
    .map(([key, one]) => `${key} ${inWords(one)}`)
    .join(', ');
}
