import { kelvinOf, miredOf } from '../../live/scales.js';
import { element, slider, switchOf } from './controls.js';

/** Of the level: sixths of a stop, finer than anybody sees. */
const STEPS_PER_STOP = 6;
const FIRST_HUE = { hue: 210, saturation: 60 };

/** The sliders of one light: on or off, how far under its most, and its colour. */
export class LampSliders {
  #range;
  #moved;
  #on;
  #level;
  #colour = null;
  #mired = null;
  #hue = null;
  #saturation = null;
  #set = { under: 0, kelvin: 5000 };
  #lit = false;

  /** @param {object} range of the answer to GET /mix @param {() => void} moved */
  constructor(range, moved) {
    this.#range = range;
    this.#moved = moved;
    this.element = element('section', 'lamp');
    this.element.setAttribute('role', 'group');
    this.element.setAttribute('aria-label', range.name);
    const head = element('div', 'lamp-head');
    this.#on = switchOf(range.name, [['off', 'off'], ['on', 'on']], (value) => {
      this.#lit = value === 'on';
      this.#draw();
      moved();
    });
    head.append(element('h3', '', range.name), this.#on.element);
    this.element.append(head);
    // To the right is brighter, whichever way one counts.
    this.#level = slider('Level', {
      least: -Math.floor(range.leastUnder * STEPS_PER_STOP),
      most: 0,
      step: 1,
      words: levelWords,
      moved: (steps) => this.#change({ under: -steps / STEPS_PER_STOP }),
    });
    this.element.append(this.#level.element);
    this.#addColours();
  }

  /** @param {object|null} lamp of a mix, null is off @param {number} kelvin of the camera */
  show(lamp, kelvin) {
    this.#lit = lamp !== null;
    if (lamp !== null) {
      // Tint and blend have no slider, and stay as they are.
      this.#set = Object.fromEntries(Object.entries(lamp).filter(([, value]) => value !== null));
    } else {
      this.#set = { under: 1, kelvin: this.#within(kelvin) };
    }
    this.#draw();
  }

  /** As a mix has it; null if it is off. */
  get value() {
    return this.#lit ? { ...this.#set } : null;
  }

  #addColours() {
    const { warmestKelvin, coldestKelvin, hues } = this.#range;
    if (hues) {
      this.#colour = switchOf(`Colour of ${this.#range.name}`, [['white', 'white'], ['hue', 'hue']], (what) => {
        this.#change(what === 'hue' ? FIRST_HUE : { kelvin: 5000 }, true);
      });
      this.#hue = slider('Hue', {
        least: 0,
        most: 359,
        step: 1,
        kind: 'hue',
        words: (hue) => `${hue}°`,
        moved: (hue) => this.#change({ hue }),
      });
      this.#saturation = slider('Saturation', {
        least: 0,
        most: 100,
        step: 1,
        words: (percent) => `${percent} %`,
        moved: (saturation) => this.#change({ saturation }),
      });
      this.element.append(this.#colour.element, this.#hue.element, this.#saturation.element);
    }
    if (coldestKelvin > warmestKelvin * 1.02) {
      this.#mired = slider('Colour temperature', {
        least: miredOf(coldestKelvin),
        most: miredOf(warmestKelvin),
        step: 5,
        kind: 'mired',
        words: (mired) => `${this.#within(kelvinOf(mired))} K`,
        moved: (mired) => this.#change({ kelvin: this.#within(kelvinOf(mired)) }),
      });
      this.element.append(this.#mired.element);
    }
  }

  /** Rounding of mired must not ask for more than the light has. */
  #within(kelvin) {
    const { warmestKelvin, coldestKelvin } = this.#range;
    return Math.round(Math.min(coldestKelvin, Math.max(warmestKelvin, kelvin)));
  }

  #change(what, other = false) {
    const { under, blend = 'broad' } = this.#set;
    this.#set = other ? { under, blend, ...what } : { ...this.#set, ...what };
    this.#lit = true;
    this.#draw();
    this.#moved();
  }

  #draw() {
    const { under, kelvin, hue, saturation } = this.#set;
    const coloured = hue !== undefined;
    this.#on.show(this.#lit ? 'on' : 'off');
    this.element.classList.toggle('dark', !this.#lit);
    this.#level.show(-Math.round(under * STEPS_PER_STOP), levelWords(-under * STEPS_PER_STOP));
    this.#colour?.show(coloured ? 'hue' : 'white');
    if (this.#hue !== null) {
      this.#hue.element.hidden = this.#saturation.element.hidden = !coloured;
      if (coloured) {
        this.#hue.show(Math.round(hue));
        this.#saturation.show(Math.round(saturation));
      }
    }
    if (this.#mired !== null) {
      this.#mired.element.hidden = coloured;
      if (!coloured) this.#mired.show(miredOf(kelvin), `${Math.round(kelvin)} K`);
    }
  }
}

function levelWords(steps) {
  const under = -steps / STEPS_PER_STOP;
  return under < 0.05 ? 'full' : `${under.toFixed(1)} under full`;
}
