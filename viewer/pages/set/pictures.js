import { cameraWords } from '/live/lighting.js';
import { pictureUrl } from '/live/sample.js';
import { shotOf } from '/live/words.js';

/**
 * The photograph and the picture of the look that is on, from plates or the model: one large, the other
 * small; the small one is a key that swaps them. With only one of them, that is the large one.
 */
export class Pictures {
  #large;
  #caption;
  #swap;
  #small;
  #words;
  #computedIsLarge = false;
  #message = null;

  constructor(figure, swap) {
    this.#large = figure.querySelector('live-picture');
    this.#caption = figure.querySelector('figcaption');
    this.#swap = swap;
    this.#small = swap.querySelector('live-picture');
    this.#words = swap.querySelector('span');
  }

  show(message) {
    this.#message = message;
    this.#draw();
  }

  /** Whether the large one is a photograph. */
  get photograph() {
    return this.#message.frame !== null && !this.#computedIsLarge;
  }

  swap() {
    this.#computedIsLarge = !this.#computedIsLarge;
    this.#draw();
  }

  #draw() {
    const { frame, prediction } = this.#message;
    const both = frame !== null && prediction !== null;
    const computed = frame === null || (both && this.#computedIsLarge);
    this.#put(this.#large, computed);
    this.#caption.replaceChildren(...(computed ? this.#aboutComputed() : this.#aboutFrame()));
    this.#swap.hidden = !both;
    if (!both) return;
    this.#put(this.#small, !computed);
    this.#words.textContent = computed ? `Photograph ${frame.number}` : `This look, ${prediction.says}`;
  }

  #put(picture, computed) {
    const { frame, prediction } = this.#message;
    if (computed) {
      picture.show(pictureUrl(prediction.url), `The look that is on, ${prediction.says}`);
    } else {
      picture.show(pictureUrl(frame.url), `Photograph ${frame.number}, ${this.#nameOf(frame)}`);
    }
  }

  #aboutFrame() {
    const { frame } = this.#message;
    return [strong(`${this.#nameOf(frame)}, photograph ${frame.number}`), ` ${frame.says}`];
  }

  #aboutComputed() {
    const { prediction } = this.#message;
    if (prediction === null) return ['No picture yet'];
    const { camera } = this.#message.light;
    if (camera === null) return [strong(prediction.says)];
    const { aperture, time, iso, kelvin } = cameraWords(camera);
    const settings = ` ${aperture}, ${time}, ${iso}, ${kelvin}`;
    return [strong(prediction.says), settings];
  }

  #nameOf(frame) {
    const plate = this.#message.plates.steps.find((step) => step.frame === frame.number);
    if (plate !== undefined) return `plate, ${plate.name}`;
    return shotOf(this.#message, frame.shot)?.name ?? frame.shot ?? 'no shot';
  }
}

function strong(words) {
  const element = document.createElement('b');
  element.textContent = words;
  return element;
}
