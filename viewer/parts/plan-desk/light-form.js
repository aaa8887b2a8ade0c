import { setting } from '../../live/document.js';
import { AIM } from '../../live/plot-of.js';
import { by, tenth } from '../../live/scales.js';
import { freeSlot, renameLight, slotsOf } from '../../live/shoot.js';
import { element, key, put } from './dom.js';
import { EntryForm, section } from './entry-form.js';
import { ChoiceField, SlideField, StepField, TextField } from './fields.js';

const AXES = ['to the right', 'behind the front row', 'above the floor'];
const HIGHEST_METRES = 6;

/** One light as placed. */
export class LightForm extends EntryForm {
  #free = key('', () => this.#useFree());
  #taken = element('p', 'says');

  constructor(ask) {
    super(ask);
    const what = section(this, 'What it is');
    const name = new TextField('Name', (value) => {
      const { document, index } = this.view;
      this.ask(renameLight(document, index, value), `${this.called} is now ${value}`, name);
    }, { needed: true });
    this.add(name, (light) => [light.name], what);
    const fixture = new ChoiceField('Fixture', (value) => this.#setFixture(value, fixture));
    this.add(fixture, (light, { known }) => [light.fixture, (known?.fixtures ?? []).map((one) => one.id)], what);
    this.keyed(
      'mode',
      (send) => new ChoiceField('Mode', send, { none: 'its first' }),
      (value, light, { known }) => [value, modesOf(known, light.fixture)],
      what,
    );
    this.keyed(
      'modifier',
      (send) => new ChoiceField('Modifier', send, { none: 'bare' }),
      (value, light, { known }) => [value, known?.modifiers ?? []],
      what,
    );
    const address = section(this, 'Address, as on its own display');
    this.keyed(
      'universe',
      (send) => new StepField('Universe', send, { step: by(1, 1, 63999) }),
      (value) => [value, 1],
      address,
    );
    this.keyed('slot', (send) => new StepField('First slot', send, { step: by(1, 1, 512) }), undefined, address);
    address.append(this.#free, this.#taken);
    this.#point('position', 'Where its front is, metres', undefined);
    const height = new SlideField('Height', (value) => {
      const [x, y] = this.entry.position;
      this.set(['position'], [x, y, value], height, 'stepped');
    }, { least: 0, most: HIGHEST_METRES, step: 0.1, to: tenth, format: (z) => `${z} m up` });
    this.add(height, (light) => [light.position?.[2]]);
    this.#point('aim', 'What it looks at, metres', AIM);
    const reset = key('At the faces in the middle', () => this.set(['aim'], undefined, null));
    this.element.append(reset);
  }

  show(view) {
    super.show(view);
    const light = this.entry;
    const slots = slotsOf(view.known, light);
    const last = light.slot + slots - 1;
    const name = view.known?.fixtures?.find((one) => one.id === light.fixture)?.name;
    const takes = slots === 1 ? 'takes 1 slot' : `takes ${slots} slots, to ${last}`;
    put(this.#taken, `${name ?? light.fixture}: ${takes}`);
    const free = this.#freeSlot();
    put(this.#free, free === null ? 'No slot is free' : `Free: ${free}`);
    this.#free.setAttribute('aria-disabled', String(free === null || free === light.slot));
  }

  #freeSlot() {
    const { document, known } = this.view;
    const light = this.entry;
    const { universe } = light;
    return freeSlot(document, known, { universe, slots: slotsOf(known, light), but: light.name });
  }

  #useFree() {
    const free = this.#freeSlot();
    if (free !== null) this.set(['slot'], free, null);
  }

  /** Another fixture has other modes. */
  #setFixture(value, about) {
    const { document, known, path } = this.view;
    const [mode] = modesOf(known, value);
    const edits = [setting(document, [...path, 'fixture'], value)];
    if (this.entry.mode !== undefined) edits.push(setting(document, [...path, 'mode'], mode));
    const says = `${this.called}, fixture: ${this.entry.fixture} is now ${value}`;
    this.ask(edits.filter((edit) => edit !== null), says, about);
  }

  #point(what, words, otherwise) {
    const row = section(this, words, 'point');
    AXES.forEach((axis, i) => {
      const field = new StepField(axis, (value, reason) => {
        if (value === undefined) return;
        const point = [...(this.entry[what] ?? otherwise)];
        point[i] = value;
        this.set([what], point, field, reason);
      }, { step: by(0.1, -50, 50) });
      this.add(field, (light) => [light[what]?.[i], otherwise?.[i]], row);
    });
  }
}

function modesOf(known, fixture) {
  return (known?.fixtures?.find((one) => one.id === fixture)?.modes ?? []).map((mode) => mode.id);
}
