/**
 * For what an accidental touch must not do: the first tap asks, a second one within ASK_MILLIS does
 * it. A tap that follows another within DRUM_MILLIS is the same hand, however often it drums.
 */
export const ASK_MILLIS = 3000;
export const DRUM_MILLIS = 350;

export class SecondTap {
  #asked = null;
  #askedMillis = -Infinity;
  #lastMillis = -Infinity;

  /**
   * @param {string|number} what is tapped
   * @param {number} nowMillis of a clock that does not jump
   * @returns {'ask'|'go'|'ignore'}
   */
  tap(what, nowMillis) {
    const sinceLast = nowMillis - this.#lastMillis;
    this.#lastMillis = nowMillis;
    if (this.#asked !== what || nowMillis - this.#askedMillis >= ASK_MILLIS) {
      this.#asked = what;
      this.#askedMillis = nowMillis;
      return 'ask';
    }
    if (sinceLast < DRUM_MILLIS) return 'ignore';
    this.forget();
    return 'go';
  }

  /** The question is taken back. */
  forget() {
    this.#asked = null;
    this.#askedMillis = -Infinity;
  }
}

/** A held Enter would click a button again and again; its auto-repeat is no second tap. */
export function ignoreRepeats(element) {
  element.addEventListener('keydown', (event) => {
    if (event.repeat && (event.key === 'Enter' || event.key === ' ')) event.preventDefault();
  });
}
