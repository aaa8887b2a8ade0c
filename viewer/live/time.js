/**
 * Time left in the window, on this device's own clock.
 *
 * A message says what was left when it was made (`atEpochMillis`, the server's clock). The server's
 * clock and this one differ by an unknown amount; the smallest difference seen stands for the
 * freshest message, and older ones are counted from it.
 */
export class TimeLeft {
  #differenceMillis = Infinity;
  #clock = null;
  #deadlineMillis = 0;

  /** @param {object} clock as in the crew message @param {number} nowMillis of a steady clock */
  take(clock, nowMillis) {
    const differenceMillis = nowMillis - clock.atEpochMillis;
    this.#differenceMillis = Math.min(this.#differenceMillis, differenceMillis);
    const ageMillis = differenceMillis - this.#differenceMillis;
    this.#clock = clock;
    this.#deadlineMillis = nowMillis - ageMillis + clock.leftSeconds * 1000;
  }

  /** After a break of the line the difference is found anew. */
  forget() {
    this.#differenceMillis = Infinity;
  }

  /** Seconds left, negative when over; null before the first message. */
  seconds(nowMillis) {
    if (this.#clock === null) return null;
    if (this.#clock.state !== 'running') return this.#clock.leftSeconds;
    return (this.#deadlineMillis - nowMillis) / 1000;
  }
}

/** mm:ss, whole seconds; what is left is rounded up, so that 0:00 means none. */
export function minutesSeconds(seconds) {
  const whole = seconds >= 0 ? Math.ceil(seconds - 1e-9) : Math.floor(-seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
