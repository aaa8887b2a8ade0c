import { rig } from './messages.js';

/** The rig, asked for once and only when somebody wants to see it. */
export class Rig {
  #part;
  #asked = false;

  /** @param part an element with setRig(rig) and problem(words) */
  constructor(part) {
    this.#part = part;
  }

  async want() {
    if (this.#asked) return;
    this.#asked = true;
    try {
      this.#part.setRig(await rig());
    } catch (problem) {
      this.#asked = false;
      this.#part.problem(problem.message);
    }
  }

  /** After a break of the line it may be another server, with the plan mended. */
  forget() {
    this.#asked = false;
  }
}
