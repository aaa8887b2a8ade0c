import { by, nextFNumber, nextIso, nextKelvin, nextTime } from '../../live/scales.js';
import { leaveOut, namesOf, renameLook } from '../../live/shoot.js';
import { element, put } from './dom.js';
import { EntryForm, section } from './entry-form.js';
import { ChoiceField, StepField, TextField } from './fields.js';
import { LampSetting } from './lamp-setting.js';

const FADE_SECONDS = 0.7;
/** What a camera is set to if nothing says so. */
const UNSAID = { f: 8, time: '1/100', iso: 6400, kelvin: 5600 };

/** Camera settings: those of the plan, or of a look that falls back on them. */
export function cameraFields(form, row, path, reset) {
  const make = {
    f: (send) => new StepField('f/', send, { step: nextFNumber, reset }),
    time: (send) =>
      new StepField('Time', send, { step: nextTime, unit: 's', reset, format: String, read: readTime }),
    iso: (send) => new StepField('ISO', send, { step: nextIso, reset }),
    kelvin: (send) => new StepField('White balance', send, { step: nextKelvin, unit: 'K', reset }),
  };
  for (const what of ['f', 'time', 'iso', 'kelvin']) {
    const field = make[what]((value, reason) => {
      const steps = [...path, what];
      if (value !== undefined) form.set(steps, value, field, reason);
      else {
        const { document, path: entry } = form.view;
        form.ask(leaveOut(document, [...entry, ...steps]), `${form.called}: ${what} as the plan`, field);
      }
    });
    form.add(field, (entry, { document }) => {
      const own = path.reduce((here, step) => here?.[step], entry)?.[what];
      return [own, document.camera?.[what] ?? UNSAID[what]];
    }, row);
  }
}

/** '1/100' stays words, 0.5 and 2 are seconds. */
function readTime(text) {
  const seconds = text.replace(',', '.').replace(/ ?s$/, '');
  if (/^1\/\d+(\.\d+)?$/.test(seconds)) return seconds;
  const value = Number(seconds);
  return seconds !== '' && Number.isFinite(value) ? value : null;
}

/** A lighting state with its camera settings. */
export class LookForm extends EntryForm {
  #lamps = new Map();
  #rows = element('div', 'lamps');
  #used = element('p', 'says');
  #pass;

  constructor(ask) {
    super(ask);
    this.#pass = ask;
    const head = section(this, 'The look');
    const name = new TextField('Name', (value) => {
      const { document, index } = this.view;
      this.ask(renameLook(document, index, value), `${this.called} is now ${value}`, name);
    }, { needed: true });
    this.add(name, (look) => [look.name], head);
    this.keyed(
      'fade',
      (send) => new StepField('Fade', send, { step: by(0.1, 0, 60), unit: 'seconds' }),
      (value) => [value, FADE_SECONDS],
      head,
    );
    this.keyed(
      'key',
      (send) => new ChoiceField('Stops are against', send, { none: 'not said' }),
      (value, look, { document }) => [value, namesOf(document.rig)],
      head,
    );
    head.append(this.#used);
    const lights = element('section', 'group');
    lights.append(element('h3', '', 'The lights'), this.#rows);
    this.element.append(lights);
    cameraFields(this, section(this, 'The camera'), ['camera'], 'as the plan');
  }

  show(view) {
    super.show(view);
    const { document, path } = view;
    const look = this.entry;
    const shots = (document.shots ?? []).filter((shot) => shot.look === look.name);
    put(
      this.#used,
      shots.length === 0
        ? 'No shot has this look yet.'
        : `In: ${shots.map((shot) => shot.name ?? 'solos').join(', ')}.`,
    );
    this.#showLamps(document, path, look);
  }

  #showLamps(document, path, look) {
    const rig = document.rig ?? [];
    const names = namesOf(rig);
    if (names.join('\n') !== [...this.#lamps.keys()].join('\n')) {
      this.#lamps = new Map(
        names.map((name) => [name, this.#lamps.get(name) ?? new LampSetting(name, this.#pass)]),
      );
      this.#rows.replaceChildren(...[...this.#lamps.values()].map((lamp) => lamp.element));
    }
    const kelvin = look.camera?.kelvin ?? document.camera?.kelvin ?? UNSAID.kelvin;
    rig.forEach((light) => {
      this.#lamps.get(light.name)?.show({
        document,
        path: [...path, 'lights', light.name],
        movedPath: [...path, 'moved', light.name],
        look: look.name,
        light,
        kelvin,
      });
    });
  }
}

/** A new look: the first light alone. */
export function newLook(document, name) {
  const [light] = namesOf(document.rig);
  return { name, lights: light === undefined ? {} : { [light]: { percent: 100 } } };
}

