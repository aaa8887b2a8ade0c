import { LampSliders } from './lamp-sliders.js';
import { element, key, slider } from './controls.js';
import { kelvinOf, MIRED_LEAST, MIRED_MOST, MIRED_STEP, miredOf, nextIso } from '../../live/scales.js';

/**
 * A look is tried before it is in the plan: one row of sliders for each light, in a layer over the
 * page, and the picture that comes of it. What the page puts inside it (a live-picture, look-cards)
 * stands beside the sliders.
 *
 * appear(), close(), open; show(start): the answer to GET /mix; take(mix, name, shot): these settings instead,
 * as of a suggestion; say(words, failed); about(words): where the picture comes from; counted(lines): what
 * is measured in it.
 *
 * Sends 'mix' (detail: the mix as POST /mix takes it) whenever something moved, 'mix-keep' (detail:
 * {name, mix}) and 'closed'.
 */
class LookMixer extends HTMLElement {
  #dialog = element('dialog');
  #title = element('h2', '', 'Try looks');
  #about = element('p', 'says');
  #counted = element('ul', 'counted');
  #said = element('p', 'said');
  #rows = element('div', 'rows');
  #name = element('input');
  #lamps = new Map();
  #camera = { kelvin: 5000, iso: 100 };
  #kelvin;
  #iso = element('output');
  #start = null;
  #shot = null;

  connectedCallback() {
    if (this.#dialog.isConnected) return;
    const [picture, cards] = this.children;
    const head = element('header');
    head.append(key('Back to the set', () => this.close(), 'small back'), this.#title, this.#said);
    this.#said.setAttribute('role', 'status');
    const seen = element('div', 'seen');
    const frame = element('div', 'picture-frame');
    if (picture !== undefined) frame.append(picture);
    seen.append(frame, this.#about, this.#counted);
    if (cards !== undefined) seen.append(cards);
    const set = element('div', 'set');
    set.append(this.#cameraRow(), this.#rows, this.#keepRow());
    const body = element('div', 'body');
    body.append(seen, set);
    this.#dialog.setAttribute('aria-label', 'Try looks');
    this.#dialog.append(head, body);
    this.append(this.#dialog);
    this.#listen();
  }

  get open() {
    return this.#dialog.open;
  }

  appear() {
    if (!this.#dialog.open) this.#dialog.showModal();
  }

  close() {
    this.#dialog.close();
  }

  show(start) {
    this.#start = start;
    this.#lamps.clear();
    this.#rows.replaceChildren(
      ...start.ranges.map((range) => {
        const lamp = new LampSliders(range, () => this.#tell());
        this.#lamps.set(range.name, lamp);
        return lamp.element;
      }),
    );
    this.take(start.mix, start.look, start.shot);
  }

  /**
   * @param {object} mix as the server gives it
   * @param {string} name of the look that it was
   * @param {string} shot id of whose people and camera it is for
   */
  take({ kelvin, iso, lights }, name, shot) {
    this.#shot = shot;
    this.#title.textContent = `Try looks, from ‘${name}’`;
    this.#camera = { kelvin, iso };
    for (const [light, lamp] of this.#lamps) lamp.show(lights[light] ?? null, kelvin);
    this.#drawCamera();
    this.#tell();
  }

  say(words, failed = false) {
    this.#said.textContent = failed ? `✕ ${words}` : words;
    this.#said.classList.toggle('failed', failed);
  }

  about(words) {
    this.#about.textContent = words;
  }

  counted(lines) {
    this.#counted.replaceChildren(...lines.map((line) => element('li', '', line)));
  }

  #cameraRow() {
    const row = element('section', 'camera');
    row.append(element('h3', '', 'Camera'));
    this.#kelvin = slider('White balance', {
      least: MIRED_LEAST,
      most: MIRED_MOST,
      step: MIRED_STEP,
      kind: 'mired',
      words: (mired) => `${kelvinOf(mired)} K`,
      moved: (mired) => {
        this.#camera.kelvin = kelvinOf(mired);
        this.#tell();
      },
    });
    const iso = element('div', 'step');
    const way = (words, by, label) => {
      const one = key(words, () => {
        this.#camera.iso = nextIso(this.#camera.iso, by);
        this.#drawCamera();
        this.#tell();
      });
      one.setAttribute('aria-label', label);
      return one;
    };
    iso.append(way('−', -1, 'ISO lower'), this.#iso, way('+', 1, 'ISO higher'));
    row.append(this.#kelvin.element, iso);
    return row;
  }

  #drawCamera() {
    this.#kelvin.show(miredOf(this.#camera.kelvin), `${Math.round(this.#camera.kelvin)} K`);
    this.#iso.textContent = `ISO ${this.#camera.iso}`;
  }

  #keepRow() {
    const row = element('form', 'keep');
    const label = element('label', '', 'Name of the look');
    this.#name.type = 'text';
    this.#name.maxLength = 40;
    this.#name.autocomplete = 'off';
    label.append(this.#name);
    const send = element('button', 'small', 'Put into the order');
    send.type = 'submit';
    row.append(label, send);
    row.addEventListener('submit', (event) => {
      event.preventDefault();
      const name = this.#name.value.trim();
      if (name === '') {
        this.say('give the look a name', true);
        this.#name.focus();
        return;
      }
      const detail = { name, mix: this.#mix() };
      this.dispatchEvent(new CustomEvent('mix-keep', { detail }));
    });
    return row;
  }

  /** What was typed is thrown away once it has arrived. */
  kept() {
    this.#name.value = '';
  }

  #listen() {
    this.#dialog.addEventListener('close', () => this.dispatchEvent(new CustomEvent('closed')));
    // The keys of the page below must not step or turn the lights.
    for (const kind of ['keydown', 'keyup']) {
      this.#dialog.addEventListener(kind, (event) => event.stopPropagation());
      addEventListener(
        kind,
        (event) => {
          if (this.open && !this.#dialog.contains(event.target)) event.stopImmediatePropagation();
        },
        true,
      );
    }
  }

  #mix() {
    const lights = {};
    for (const [name, lamp] of this.#lamps) {
      const set = lamp.value;
      if (set !== null) lights[name] = set;
    }
    return { shot: this.#shot, ...this.#camera, lights };
  }

  #tell() {
    if (this.#start === null) return;
    this.dispatchEvent(new CustomEvent('mix', { detail: this.#mix() }));
  }
}

customElements.define('look-mixer', LookMixer);
