import { fullSizeUrl } from '../../live/sample.js';

/**
 * A part of a frame's original, pixel for pixel. Arrows move on by half a window, a drag moves the
 * place, Escape or a tap closes it.
 *
 * show(number, {x, y}): x and y, 0 to 1, are the place in the picture that is to be in the middle.
 */
const STEP = 0.12;
const TAP_PIXELS = 6;

class FullSize extends HTMLElement {
  #dialog = document.createElement('dialog');
  #image = document.createElement('img');
  #words = document.createElement('p');
  #number = 0;
  #middle = { x: 0.5, y: 0.5 };
  #grip = null;
  #loading = false;
  #again = false;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#image.alt = '';
    this.#image.draggable = false;
    this.#dialog.append(this.#image, this.#words);
    this.append(this.#dialog);
    this.#image.addEventListener('load', () => this.#loaded());
    this.#image.addEventListener('error', () => this.#loaded('This part cannot be shown.'));
    this.#dialog.addEventListener('keydown', (event) => this.#key(event));
    this.#dialog.addEventListener('pointerdown', ({ clientX, clientY }) => {
      this.#grip = { x: clientX, y: clientY };
    });
    this.#dialog.addEventListener('pointerup', ({ clientX, clientY }) => {
      if (this.#grip === null) return;
      const moved = { x: clientX - this.#grip.x, y: clientY - this.#grip.y };
      this.#grip = null;
      if (Math.hypot(moved.x, moved.y) < TAP_PIXELS) this.#dialog.close();
      // As far as the finger went, doubled: a window is a small part of the picture.
      else this.#move((-moved.x / innerWidth) * 3 * STEP, (-moved.y / innerHeight) * 3 * STEP);
    });
  }

  get open() {
    return this.#dialog.open;
  }

  show(number, middle = { x: 0.5, y: 0.5 }) {
    this.#number = number;
    this.#middle = middle;
    if (!this.#dialog.open) this.#dialog.showModal();
    this.#load();
  }

  #key(event) {
    const [dx, dy] =
      { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key] ??
      [];
    // The keys of the page below must not turn the lights.
    event.stopPropagation();
    if (event.key === 'z' || event.key === 'Z') this.#dialog.close();
    if (dx === undefined) return;
    event.preventDefault();
    this.#move(dx * STEP, dy * STEP);
  }

  #move(dx, dy) {
    const within = (value) => Math.min(1, Math.max(0, value));
    this.#middle = { x: within(this.#middle.x + dx), y: within(this.#middle.y + dy) };
    this.#load();
  }

  /** One part at a time: a held arrow asks for the place where it has come to. */
  #loaded(problem = null) {
    this.#loading = false;
    this.#say(problem);
    if (this.#again) this.#load();
  }

  #load() {
    this.#again = this.#loading;
    if (this.#loading) return;
    this.#loading = true;
    this.#words.textContent = `Frame ${this.#number} at 100 %: coming …`;
    this.#image.src = fullSizeUrl(this.#number, this.#middle, {
      width: Math.min(2000, Math.round(innerWidth * devicePixelRatio)),
      height: Math.min(2000, Math.round(innerHeight * devicePixelRatio)),
    });
    // One pixel of the camera on one of the screen.
    this.#image.style.zoom = String(1 / devicePixelRatio);
  }

  #say(problem) {
    if (problem !== null) {
      this.#words.textContent = problem;
      return;
    }
    const { x, y } = this.#middle;
    const at = `${Math.round(x * 100)} % across, ${Math.round(y * 100)} % down`;
    this.#words.textContent = `Frame ${this.#number} at 100 %, ${at}. Arrows or a drag move it; a tap or Escape closes.`;
  }
}

customElements.define('full-size', FullSize);
