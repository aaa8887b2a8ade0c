import '/parts/look-cards/look-cards.js';
import '/parts/look-mixer/look-mixer.js';
import { countMix, keepMix, mixPicture, mixStart, putSuggestion, suggest } from '/live/messages.js';

const COUNT_AFTER_MILLIS = 250;

/**
 * The layer in which looks are tried: joins sliders, picture and suggestions to the server. One picture
 * is on its way, and of the mixes that came meanwhile only the newest waits.
 */
export class Trying {
  #mixer;
  #picture;
  #cards;
  #wanted = null;
  #asking = false;
  #url = null;
  #counting = null;
  /** One more for each mix. */
  #serial = 0;

  /** @param {HTMLElement} mixer holds a live-picture and look-cards @param {HTMLElement[]} keys open it */
  constructor(mixer, keys) {
    this.#mixer = mixer;
    this.#picture = mixer.querySelector('live-picture');
    this.#cards = mixer.querySelector('look-cards');
    for (const key of keys) key.addEventListener('click', () => this.#open());
    mixer.addEventListener('mix', ({ detail }) => this.#want(detail));
    mixer.addEventListener('mix-keep', ({ detail }) => this.#keep(detail));
    this.#cards.addEventListener('suggest', () => this.#suggest());
    this.#cards.addEventListener('suggestion-try', ({ detail }) => {
      this.#mixer.take(detail.mix, detail.name, detail.shot);
      this.#mixer.say(detail.move === '' ? '' : `without the move: ${detail.move}`);
    });
    this.#cards.addEventListener('suggestion-put', ({ detail }) => {
      this.#do(async () => `‘${(await putSuggestion(detail)).look}’ is in the running order`);
    });
  }

  get open() {
    return this.#mixer.open;
  }

  async #open() {
    this.#mixer.appear();
    await this.#do(async () => {
      this.#mixer.show(await mixStart());
      return '';
    });
  }

  #want(mix) {
    this.#wanted = mix;
    this.#serial += 1;
    this.#mixer.counted([]);
    if (!this.#asking) this.#next();
  }

  async #next() {
    this.#asking = true;
    while (this.#wanted !== null) {
      const mix = this.#wanted;
      this.#wanted = null;
      try {
        const { url, plates } = await mixPicture(mix);
        this.#show(url, plates);
        this.#countSoon(mix);
      } catch (problem) {
        this.#mixer.say(problem.message, true);
      }
    }
    this.#asking = false;
  }

  /** Once the sliders rest: it takes longer than the picture. */
  #countSoon(mix) {
    clearTimeout(this.#counting);
    const serial = this.#serial;
    this.#counting = setTimeout(async () => {
      let lines;
      try {
        lines = (await countMix(mix)).says;
      } catch {
        lines = ['this mix could not be counted'];
      }
      // What was counted of another mix is not shown beside this one.
      if (serial === this.#serial) this.#mixer.counted(lines);
    }, COUNT_AFTER_MILLIS);
  }

  #show(url, plates) {
    const before = this.#url;
    this.#url = url;
    const says = plates ? 'from plates' : 'computed, not photographed';
    this.#picture.show(url, `The mix, ${says}`);
    this.#mixer.about(says);
    // Whoever still decodes the one before has it already.
    if (before !== null && before.startsWith('blob:')) setTimeout(() => URL.revokeObjectURL(before), 2000);
  }

  async #keep({ name, mix }) {
    const kept = await this.#do(async () => {
      const { look } = await keepMix({ ...mix, name });
      return `‘${look}’ is in the running order`;
    });
    if (kept) this.#mixer.kept();
  }

  async #suggest() {
    this.#cards.busy(true);
    await this.#do(async () => {
      this.#cards.show(await suggest());
      return '';
    });
    this.#cards.busy(false);
  }

  /** @returns {Promise<boolean>} whether it was done */
  async #do(what) {
    try {
      this.#mixer.say(await what());
      return true;
    } catch (problem) {
      this.#mixer.say(problem.message, true);
      return false;
    }
  }
}
