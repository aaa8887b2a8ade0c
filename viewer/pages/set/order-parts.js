import {
  cut as askCut,
  job as askJob,
  jump as askJump,
  jumpToShot as askJumpToShot,
  mend as askMend,
  place as askPlace,
  solos as askSolos,
} from '/live/messages.js';
import { allShots, directionOf, fallingOff, placeOf, shotOf } from '/live/words.js';

const part = (selector) => document.querySelector(selector);

/** The parts about what is made when, where, of whom and for whom. */
export class OrderParts {
  #order;
  #stepping;
  #ask;
  #cutting = part('order-cut');
  #round = part('solo-round');
  #jobs = document.querySelectorAll('job-switch');
  #message = null;

  /**
   * @param {object} page
   * @param {import('/live/changing.js').Changing} page.order presses that change the order
   * @param {import('/live/stepping.js').Stepping} page.stepping
   * @param {(question: () => Promise) => Promise<boolean>} page.ask whether it was done
   */
  constructor({ order, stepping, ask }) {
    this.#order = order;
    this.#stepping = stepping;
    this.#ask = ask;
    const list = part('set-list');
    list.addEventListener('jump', ({ detail }) => this.#jump((at) => askJump(at, detail)));
    list.addEventListener('jump-to', ({ detail }) => this.#jump((at) => askJumpToShot(at, detail)));
    part('one-shot').addEventListener('go-one', ({ detail }) => {
      const to = placeOf(this.#message, detail);
      this.#jump((at) => (to === 0 ? askJumpToShot(at, detail) : askJump(at, to)));
    });
    this.#cutting.addEventListener('cut-do', ({ detail }) => {
      order.press((at) => askCut(at, detail), { once: JSON.stringify(detail) });
    });
    for (const solos of [this.#round, part('people-list')]) {
      solos.addEventListener('solos-do', ({ detail }) => {
        order.press((at) => askSolos(at, detail ?? []), { once: `solos ${detail ?? ''}` });
      });
    }
    for (const one of this.#jobs) {
      one.addEventListener('job-do', ({ detail }) => this.#job(one, detail));
    }
    part('place-move').addEventListener('place-do', ({ detail }) => ask(() => askPlace(detail)));
    part('check-list').addEventListener('mend-do', ({ detail }) => ask(() => askMend(detail)));
  }

  show(message) {
    const before = this.#message;
    this.#message = message;
    const { current, coming, cut, solos, places } = message;
    const shots = allShots(message);
    if (before !== null && before.current !== current) this.#cutting.toggle(false);
    part('set-list').show(message);
    this.#cutting.show(cut, fallingOff(message));
    part('one-shot').show(cut, current);
    this.#round.show(solos);
    for (const one of this.#jobs) one.show(message.jobs, shots);
    part('place-move').show(places);
    part('#place-says').textContent = places.says;
    part('people-list').show(message.people, solos.canRound);
    part('band-notes').show(message.about);
    part('check-list').show(message.checks, shots, current);
    part('#now-directions').show(directionOf(message, current), shotOf(message, current));
    part('#next-directions').show(directionOf(message, coming), shotOf(message, coming));
    part('#coming').hidden = directionOf(message, coming) === null;
  }

  /** A key of the keyboard; true if it meant something here. */
  key(key, held) {
    return !held && (this.#cutting.key(key) || this.#round.key(key));
  }

  #jump(press) {
    this.#stepping.ours();
    this.#order.press(press, { once: 'jump' });
  }

  /** What was typed is not thrown away before it has arrived. */
  async #job(form, wish) {
    if (await this.#ask(() => askJob(wish))) form.done();
  }
}
