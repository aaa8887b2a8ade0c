import { at } from '../../live/document.js';
import { AIM } from '../../live/plot-of.js';
import { by, nextKelvin, nextShare, nextStops } from '../../live/scales.js';
import { leaveOut } from '../../live/shoot.js';
import { element } from './dom.js';
import { EntryForm } from './entry-form.js';
import { kelvinSlide, SlideField, StepField, SwitchField } from './fields.js';

const LEVELS = ['percent', 'lux', 'stops'];
/** What a light begins with when it is measured so. */
const FIRST = { percent: 100, lux: 100, stops: 0 };
const COLOURS = {
  white: [],
  kelvin: ['kelvin', 'duv'],
  hue: ['hue', 'saturation'],
  xy: ['xy'],
};
const AXES = ['right', 'behind', 'up'];

/** What one light does in a look. Its entry may not be there: then it is off. */
export class LampSetting extends EntryForm {
  #name;
  #head = element('div', 'lamp-head');
  #level;
  #levels = new Map();
  #colour;
  #colours = new Map();
  #moved;
  #movedTo = element('div', 'fields point');

  /** @param {string} name of the light */
  constructor(name, ask) {
    super(ask);
    this.#name = name;
    this.element.className = 'lamp';
    this.#head.append(element('h4', '', name));
    this.element.append(this.#head);
    this.#level = this.add(
      new SwitchField('Level', (value) => this.#setLevel(value), [
        ['off', 'off'],
        ['percent', '%'],
        ['lux', 'lux'],
        ['stops', 'stops'],
      ]),
      (setting) => [levelOf(setting)],
    );
    for (const [what, label, step] of [
      ['percent', 'Percent of its most', (value, way) => nextShare(value, way, 100)],
      ['lux', 'Lux at the middle', nextShare],
      ['stops', 'Stops against the key', nextStops],
    ]) {
      const format = what === 'stops' ? signed : String;
      const field = this.keyed(what, (send) => new StepField(label, send, { step, format }));
      this.#levels.set(what, field);
    }
    this.#colour = this.add(
      new SwitchField('Colour', (value) => this.#setColour(value), [
        ['white', 'white'],
        ['kelvin', 'kelvin'],
        ['hue', 'hue'],
        ['xy', 'xy'],
      ]),
      (setting) => [colourOf(setting)],
    );
    this.#addColours();
    this.#addMoved();
  }

  get called() {
    return `${this.view.look}, ${this.#name}`;
  }

  show(view) {
    super.show(view);
    const setting = this.entry;
    const level = levelOf(setting);
    const colour = colourOf(setting);
    this.element.classList.toggle('dark', level === 'off');
    for (const [what, field] of this.#levels) field.element.hidden = what !== level;
    this.#colour.element.hidden = level === 'off';
    for (const [field, whose] of this.#colours) field.element.hidden = level === 'off' || whose !== colour;
    this.#movedTo.hidden = this.#movedPosition() === undefined;
  }

  #addColours() {
    const kelvin = this.keyed('kelvin', (send) => new StepField('Kelvin', send, { step: nextKelvin }));
    const slide = this.keyed('kelvin', (send) => kelvinSlide('Colour temperature, cold to warm', send));
    this.#colours.set(slide, 'kelvin').set(kelvin, 'kelvin');
    const turn = { least: 0, most: 360, step: 1, format: (hue) => `${hue}°`, kind: 'hue' };
    const share = { least: 0, most: 100, step: 1, format: (percent) => `${percent} %` };
    this.#colours.set(this.keyed('hue', (send) => new SlideField('Hue', send, turn)), 'hue');
    const saturation = this.keyed('saturation', (send) => new SlideField('Saturation', send, share));
    this.#colours.set(saturation, 'hue');
    ['x', 'y'].forEach((axis, i) => {
      const field = new StepField(`CIE 1931 ${axis}`, (value, reason) => {
        if (value === undefined) return;
        const xy = [...this.entry.xy];
        xy[i] = value;
        this.set(['xy'], xy, field, reason);
      }, { step: by(0.005, 0.001, 0.9) });
      this.#colours.set(this.add(field, (setting) => [setting?.xy?.[i]]), 'xy');
    });
  }

  #addMoved() {
    this.#moved = this.add(
      new SwitchField('Where it stands in this look', (value) => this.#setMoved(value === 'moved'), [
        ['rig', 'stays'],
        ['moved', 'moved'],
      ]),
      () => [this.#movedPosition() === undefined ? 'rig' : 'moved'],
      this.#head,
    );
    this.element.append(this.#movedTo);
    AXES.forEach((axis, i) => {
      const field = new StepField(`${axis}, metres`, (value, reason) => {
        if (value === undefined) return;
        const point = [...this.#movedPosition()];
        point[i] = value;
        this.setAt([...this.view.movedPath, 'position'], point, field, reason);
      }, { step: by(0.1, -50, 50) });
      this.add(field, () => [this.#movedPosition()?.[i]], this.#movedTo);
    });
  }

  #movedPosition() {
    return at(this.view.document, this.view.movedPath)?.position;
  }

  #setMoved(moved) {
    const { document, movedPath, light } = this.view;
    if (moved) {
      const to = { position: light.position, aim: light.aim ?? AIM };
      this.setAt(movedPath, to, this.#moved);
      return;
    }
    const says = `${this.called} stands as in the rig`;
    this.ask(leaveOut(document, movedPath), says, this.#moved);
  }

  #setLevel(level) {
    if (level === 'off') {
      this.setAt(this.view.path, undefined, this.#level);
      return;
    }
    const { percent, lux, stops, ...rest } = this.entry ?? {};
    const same = { percent, lux, stops }[level];
    this.setAt(this.view.path, { [level]: same ?? FIRST[level], ...rest }, this.#level);
  }

  #setColour(colour) {
    const rest = { ...this.entry };
    for (const key of Object.values(COLOURS).flat()) delete rest[key];
    const { kelvin } = this.view;
    const first = {
      white: {},
      kelvin: { kelvin },
      hue: { hue: 240, saturation: 80 },
      xy: { xy: [0.3127, 0.329] },
    };
    this.setAt(this.view.path, { ...rest, ...first[colour] }, this.#colour);
  }
}

const levelOf = (setting) => LEVELS.find((one) => setting?.[one] !== undefined) ?? 'off';

function colourOf(setting) {
  return Object.keys(COLOURS).find((one) => setting?.[COLOURS[one][0]] !== undefined) ?? 'white';
}

const signed = (stops) => (stops > 0 ? `+${stops}` : String(stops));
