import { after, at, setting } from '../../live/document.js';
import { by, nextKelvin } from '../../live/scales.js';
import { housePath, leaveOut, namesOf } from '../../live/shoot.js';
import { element, key } from './dom.js';
import { EntryForm, section } from './entry-form.js';
import { ChoiceField, LinesField, NamesField, StepField, SwitchField, TextField } from './fields.js';
import { cameraFields } from './look-form.js';

/** One place: the room, when it can be had, its mains, what of the rig stands there. */
export class PlaceForm extends EntryForm {
  #circuits = [];
  #rows = element('div', 'circuits');
  #pass;

  constructor(ask) {
    super(ask);
    this.#pass = ask;
    const room = section(this, 'The room, metres');
    this.keyed('name', (send) => new TextField('Name', send, { needed: true }), undefined, room);
    for (const [what, words, most] of [
      ['width', 'Width', 100],
      ['depth', 'Depth', 100],
      ['height', 'Height', 50],
    ]) {
      const least = what === 'height' ? 2 : 1;
      this.keyed(what, (send) => new StepField(words, send, { step: by(0.1, least, most) }), undefined, room);
    }
    this.keyed(
      ['background', 'distance'],
      (send) => new StepField('Background behind them', send, { step: by(0.1, 0.2, 60) }),
      undefined,
      room,
    );
    const surfaces = section(this, 'Surfaces');
    const background = new ChoiceField('Background', (value) => this.#setBackground(value, background));
    this.add(
      background,
      (place, { known }) => [place.background?.surface ?? place.background?.reflectance, known?.surfaces ?? []],
      surfaces,
    );
    for (const [what, words, none] of [
      ['floor', 'Floor', '0.2 comes back'],
      ['walls', 'Walls and ceiling', '0.5 comes back'],
    ]) {
      this.keyed(
        what,
        (send) => new ChoiceField(words, send, { none }),
        (value, place, { known }) => [value, known?.surfaces ?? []],
        surfaces,
      );
    }
    this.#addHouse();
    const when = section(this, 'When and who');
    this.keyed('from', (send) => new TextField('From', send, { hint: '18:30' }), undefined, when);
    this.keyed('until', (send) => new TextField('Until', send, { hint: '19:45' }), undefined, when);
    this.keyed('access', (send) => new TextField('How to get in', send), undefined, when);
    this.keyed('ask', (send) => new TextField('Whom to ask', send), undefined, when);
    this.keyed('notes', (send) => new LinesField('Notes, a line each', send), undefined, when);
    this.#addLights();
    const mains = element('section', 'group');
    mains.append(
      element('h3', '', 'Mains'),
      element('p', 'says', '80 % of a breaker is common practice for what runs for long. Local code prevails.'),
      this.#rows,
      key('Add a circuit', () => this.#addCircuit()),
    );
    this.element.append(mains);
  }

  show(view) {
    super.show(view);
    const circuits = this.entry.circuits ?? [];
    while (this.#circuits.length > circuits.length) this.#circuits.pop().element.remove();
    while (this.#circuits.length < circuits.length) {
      const one = new CircuitForm(this.#pass);
      this.#circuits.push(one);
      this.#rows.append(one.element);
    }
    this.#circuits.forEach((one, i) => one.show({ ...view, path: [...view.path, 'circuits', i] }));
  }

  #addHouse() {
    const row = section(this, 'The light that is there already');
    const path = () => housePath(this.view.document, { place: this.entry, path: this.view.path });
    const shown = ({ house }, { document }) => house ?? document.house;
    const lux = new StepField('Lux at the people', (value, reason) => {
      if (value === undefined) this.setAt(path(), undefined, lux);
      else this.#setHouse(path(), { lux: value }, lux, reason);
    }, { step: by(1, 0, 100000) });
    this.add(lux, (place, view) => [shown(place, view)?.lux, 0], row);
    const kelvin = new StepField('Colour temperature', (value, reason) => {
      this.#setHouse(path(), { kelvin: value }, kelvin, reason);
    }, { step: nextKelvin, unit: 'K' });
    this.add(kelvin, (place, view) => [shown(place, view)?.kelvin, 3000], row);
  }

  /** A house must have its lux. */
  #setHouse(path, change, about, reason) {
    const now = at(this.view.document, path) ?? this.view.document.house ?? { lux: 0 };
    const house = { ...now, ...change };
    if (house.kelvin === undefined) delete house.kelvin;
    this.setAt(path, house, about, reason);
  }

  /** A word and a share say the same: one of them stands there. */
  #setBackground(value, about) {
    const { document, path } = this.view;
    const { reflectance, surface, ...rest } = this.entry.background ?? { distance: 2.5 };
    const was = surface ?? reflectance;
    const edit = setting(document, [...path, 'background'], { ...rest, surface: value });
    if (edit !== null) this.ask([edit], `${this.called}, background: ${was} is now ${value}`, about);
  }

  #addLights() {
    const row = section(this, 'Lights that stand here');
    const all = new SwitchField('Of the rig', (value) => {
      this.set(['lights'], value === 'all' ? undefined : namesOf(this.view.document.rig), all);
    }, [
      ['all', 'all of it'],
      ['some', 'some'],
    ]);
    this.add(all, (place) => [place.lights === undefined ? 'all' : 'some'], row);
    const some = new NamesField('These', (names) => {
      const now = this.entry.lights ?? [];
      const kept = names.map((name) => now.find((one) => (one.name ?? one) === name) ?? name);
      this.set(['lights'], kept, some);
    });
    this.add(some, (place, { document }) => {
      some.element.hidden = place.lights === undefined;
      return [(place.lights ?? []).map((one) => one.name ?? one), namesOf(document.rig)];
    }, row);
  }

  #addCircuit() {
    const { document, path } = this.view;
    const list = [...path, 'circuits'];
    const there = this.entry.circuits ?? [];
    const value = { name: `circuit ${there.length + 1}`, amps: 16 };
    const edit =
      this.entry.circuits === undefined
        ? setting(document, list, [value])
        : { op: 'insert', path: list, index: there.length, value };
    this.ask([edit], `${this.called}: a circuit more`);
  }
}

/** What a breaker holds and what hangs on it. */
class CircuitForm extends EntryForm {
  constructor(ask) {
    super(ask);
    this.element.className = 'circuit';
    const row = element('div', 'fields');
    this.element.append(row);
    this.keyed('name', (send) => new TextField('Circuit', send, { needed: true }), undefined, row);
    this.keyed('amps', (send) => new StepField('Breaker', send, { step: by(1, 1, 400), unit: 'A' }), undefined, row);
    this.keyed(
      'volts',
      (send) => new StepField('Volts', send, { step: by(10, 90, 480) }),
      (value) => [value, 230],
      row,
    );
    this.keyed(
      'watts',
      (send) => new StepField('What else hangs on it', send, { step: by(50, 0, 100000), unit: 'W' }),
      (value) => [value, 0],
      row,
    );
    this.keyed(
      'lights',
      (send) => new NamesField('Plugged in', (names) => send(names.length === 0 ? undefined : names)),
      (value, circuit, { document }) => [value ?? [], namesOf(document.rig)],
    );
    this.element.append(key('Remove this circuit', () => this.#remove()));
  }

  #remove() {
    const { document, path } = this.view;
    const list = path.slice(0, -1);
    const edit = { op: 'remove', path, was: this.entry };
    const last = at(after(document, [edit]), list).length === 0;
    this.ask(last ? leaveOut(document, list) : [edit], `${this.called}: removed`);
  }
}

/** What holds for the whole shoot. */
export class ShootForm extends EntryForm {
  constructor(ask) {
    super(ask);
    const head = section(this, 'The shoot');
    this.keyed('title', (send) => new TextField('Title', send, { needed: true }), undefined, head);
    this.keyed(
      'window',
      (send) => new TextField('Window: how long the people are there', send, { needed: true, hint: '8 min' }),
      undefined,
      head,
    );
    cameraFields(this, section(this, 'The camera, unless a look says otherwise'), ['camera'], null);
    const work = section(this, 'Work light: what people set up in');
    for (const [what, words, step, otherwise] of [
      ['percent', 'Percent of the most', by(5, 0, 100), 25],
      ['kelvin', 'Kelvin', nextKelvin, 4300],
    ]) {
      const field = new StepField(words, (value, reason) => {
        const now = { percent: 25, ...this.entry.worklight, [what]: value };
        if (value === undefined) delete now[what];
        const left = now.percent === undefined ? undefined : now;
        this.set(['worklight'], left, field, reason);
      }, { step });
      this.add(field, ({ worklight }) => [worklight?.[what], otherwise], work);
    }
    this.element.append(
      element('p', 'says', 'Flashing, jobs, times and fixture files are written in the plan file.'),
    );
  }

  get called() {
    return 'the shoot';
  }
}
