import { IMPATIENT_MILLIS } from './press.js';

/** As many presses wait for an answer as a hammering finger may be ahead of the light. */
export const KEPT_MOST = 3;
/** A key that is held down counts again after this. */
export const HELD_MILLIS = 250;
/** Of presses that must not come twice, one so soon after another is the same hurried one. */
export const HURRIED_MILLIS = 300;

/**
 * Presses that are no step: one is on its way, a few are kept, the rest does not count. A kept press
 * is let go if the shot has changed since, or if it would do nothing any more.
 *
 * Events: 'sent', 'late' (the answer takes its time), 'answered', 'failed' (detail: words for the
 * person at the key).
 */
export class Changing extends EventTarget {
  #feed;
  #message = null;
  #kept = [];
  #busy = false;
  #sentMillis = -Infinity;
  #last = { name: null, millis: -Infinity };

  constructor(feed) {
    super();
    this.#feed = feed;
    feed.addEventListener('message', ({ detail }) => {
      if (detail.kind === 'crew') this.#message = detail;
    });
  }

  /**
   * @param {(at: number) => Promise<object|null>} send asks the server, for the position that was seen
   * @param {object} how
   * @param {(message: object) => boolean} how.possible whether it still does something
   * @param {string|null} how.once a name for what must not come twice in a hurry
   * @param {boolean} how.held true if the key was not pressed anew
   */
  press(send, { possible = () => true, once = null, held = false } = {}) {
    if (this.#message === null) return;
    const now = performance.now();
    if (held && (this.#busy || now - this.#sentMillis < HELD_MILLIS)) return;
    if (once !== null) {
      const hurried = this.#last.name === once && now - this.#last.millis < HURRIED_MILLIS;
      this.#last = { name: once, millis: now };
      if (hurried) return;
    }
    const press = { send, possible, at: this.#message.position.at };
    if (!this.#busy) this.#send(press);
    else if (this.#kept.length < KEPT_MOST) this.#kept.push(press);
  }

  async #send({ send, at }) {
    this.#busy = true;
    this.#sentMillis = performance.now();
    this.#tell('sent');
    const late = setTimeout(() => this.#tell('late'), IMPATIENT_MILLIS);
    let problem = null;
    try {
      const answer = await send(at);
      if (answer !== null) this.#feed.offer(answer);
    } catch (thrown) {
      problem = thrown;
    }
    clearTimeout(late);
    this.#busy = false;
    if (problem === null) {
      this.#tell('answered');
      this.#next();
    } else {
      // What was kept was meant for a light that did not come.
      this.#kept = [];
      this.#tell('failed', problem.message);
    }
  }

  #next() {
    while (this.#kept.length > 0) {
      const press = this.#kept.shift();
      if (press.at === this.#message.position.at && press.possible(this.#message)) {
        this.#send(press);
        return;
      }
    }
  }

  #tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}

/** Puts what becomes of the presses into an element that is empty while all is well. */
export function sayOn(changing, element) {
  const say = (words, failed) => {
    element.textContent = words;
    element.classList.toggle('failed', failed);
  };
  changing.addEventListener('late', () => say('Still sending …', false));
  changing.addEventListener('answered', () => say('', false));
  changing.addEventListener('failed', ({ detail }) => say(`✕ ${detail}`, true));
}
