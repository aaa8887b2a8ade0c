import { back, step } from './messages.js';
import { IMPATIENT_MILLIS, PressGate } from './press.js';

/** A press this soon after somebody else's step was meant for the shot before it. */
const REACTION_MILLIS = 300;
/** A step that shows within this of a press of ours is taken for ours. */
const OWN_MILLIS = 2000;

/**
 * From presses to steps. Knows the position from the newest message (`position`), sends, offers the
 * answer to the feed.
 *
 * Events: 'pressed' (a press that counts), 'sent' (again with detail.late when the answer takes its
 * time), 'answered', 'failed' (detail: words for the person at the key), 'nothing' (there is no shot
 * that way), 'overtaken' (somebody else has just stepped, so this press does not count).
 */
export class Stepping extends EventTarget {
  #feed;
  #gates = { step: new PressGate(), back: new PressGate() };
  #position = null;
  #coming = null;
  #ownMillis = -Infinity;
  #foreignMillis = -Infinity;

  constructor(feed) {
    super();
    this.#feed = feed;
    feed.addEventListener('message', ({ detail }) => {
      if (detail.kind !== 'crew') return;
      const now = performance.now();
      const moved = this.#position !== null && detail.position.at !== this.#position.at;
      if (moved && now - this.#ownMillis > OWN_MILLIS) this.#foreignMillis = now;
      this.#position = detail.position;
      this.#coming = detail.coming;
    });
  }

  /** A change of the shot that comes now was asked for on this page. */
  ours() {
    this.#ownMillis = performance.now();
  }

  /** @param {'step'|'back'} what */
  press(what) {
    if (this.#position === null) return;
    if (performance.now() - this.#foreignMillis < REACTION_MILLIS) {
      this.#tell('overtaken', what);
      return;
    }
    if (!this.#possible(what)) {
      this.#tell('nothing', what);
      return;
    }
    const verdict = this.#gates[what].press(performance.now());
    if (verdict === 'ignore') return;
    this.#tell('pressed', what);
    if (verdict === 'send') this.#send(what);
  }

  #possible(what) {
    return what === 'step' ? this.#coming !== null : this.#position.at > 0;
  }

  async #send(what) {
    this.#tell('sent', { what, late: false });
    this.#ownMillis = performance.now();
    const late = setTimeout(() => this.#tell('sent', { what, late: true }), IMPATIENT_MILLIS);
    const gate = this.#gates[what];
    try {
      const message = await (what === 'step' ? step : back)(this.#position.at);
      clearTimeout(late);
      if (message !== null) this.#feed.offer(message);
      this.#tell('answered', what);
      if (!gate.answered(performance.now())) return;
      if (this.#possible(what)) this.#send(what);
      else gate.failed();
    } catch (problem) {
      clearTimeout(late);
      gate.failed();
      this.#tell('failed', problem.message);
    }
  }

  #tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}
