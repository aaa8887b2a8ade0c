import { cameraWords } from '../../live/lighting.js';

/**
 * What the camera is to be set to by hand, the colour temperature big. What has just become other
 * is marked, until the next shot or the next change.
 *
 * show(camera, shot, stays, byHand): settings or null; the shot's id; true if the lights make up for
 * them; what a camera that is set from here did not let itself be set to.
 */
class CameraSettings extends HTMLElement {
  #label = document.createElement('span');
  #fields = new Map();
  #aside = document.createElement('span');
  #camera = null;
  #before = null;
  #shot = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#label.className = 'label';
    this.#label.textContent = 'Camera to';
    this.#aside.className = 'aside';
    const dial = document.createElement('span');
    const rest = document.createElement('span');
    dial.append(this.#label, ' ', this.#field('kelvin'));
    rest.append(this.#field('aperture'), ' ', this.#field('time'), ' ', this.#field('iso'));
    this.append(dial, ' ', rest, ' ', this.#aside);
    this.setAttribute('aria-live', 'polite');
    this.hidden = true;
  }

  show(camera, shot, stays, byHand) {
    this.hidden = camera === null;
    if (camera === null) return;
    const key = JSON.stringify([camera, shot, stays, byHand]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    const now = cameraWords(camera);
    if (shot !== this.#shot || JSON.stringify(now) !== JSON.stringify(this.#camera)) {
      this.#before = this.#camera;
    }
    this.#shot = shot;
    this.#camera = now;
    for (const [name, field] of this.#fields) {
      field.textContent = now[name];
      field.classList.toggle('new', this.#isNew(name));
    }
    const was = this.#isNew('kelvin') ? `was ${this.#before.kelvin}` : '';
    const kept = stays ? 'stays, the lights make up for it' : '';
    this.#aside.textContent = [was, kept, ...byHand].filter((words) => words !== '').join('; ');
  }

  #field(name) {
    const field = document.createElement('span');
    field.className = name;
    this.#fields.set(name, field);
    return field;
  }

  #isNew(name) {
    return this.#before !== null && this.#before[name] !== this.#camera[name];
  }
}

customElements.define('camera-settings', CameraSettings);
