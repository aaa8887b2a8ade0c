/**
 * Which presses of the key count.
 *
 * A press within DOUBLE_TAP_MILLIS of the one before is the same hurried press: it does not count,
 * and a drumming finger stays one press. A later press while the answer is still on its way is kept
 * (one at most) and sent when the answer is there; after IMPATIENT_MILLIS without an answer it is
 * impatience with the network, not a wish for a second step, and does not count.
 */
export const DOUBLE_TAP_MILLIS = 200;
export const IMPATIENT_MILLIS = 800;

export class PressGate {
  #lastMillis = -Infinity;
  #sentMillis = -Infinity;
  #waiting = false;
  #kept = false;

  /**
   * @param {number} nowMillis of a clock that does not jump
   * @returns {'send'|'keep'|'ignore'}
   */
  press(nowMillis) {
    const sinceLast = nowMillis - this.#lastMillis;
    this.#lastMillis = nowMillis;
    if (sinceLast < DOUBLE_TAP_MILLIS) return 'ignore';
    if (!this.#waiting) {
      this.#waiting = true;
      this.#sentMillis = nowMillis;
      return 'send';
    }
    if (this.#kept || nowMillis - this.#sentMillis > IMPATIENT_MILLIS) return 'ignore';
    this.#kept = true;
    return 'keep';
  }

  /** The answer is there. @returns {boolean} true if a kept press is to be sent now */
  answered(nowMillis) {
    this.#waiting = this.#kept;
    this.#kept = false;
    if (this.#waiting) this.#sentMillis = nowMillis;
    return this.#waiting;
  }

  /** There was no good answer: a kept press was meant for a light that did not come. */
  failed() {
    this.#waiting = false;
    this.#kept = false;
  }
}
