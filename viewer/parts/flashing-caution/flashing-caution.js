import { ASK_MILLIS, ignoreRepeats, SecondTap } from '../../live/second-tap.js';

/**
 * Flashing light can set off seizures: what holds it back, and who was told if the plan allows it.
 *
 * show({allowed, acknowledged}). Sends 'flashing-do' (detail: true if everybody was told), after two
 * taps; false, which puts the limit back on, after one.
 */
const HELD_BACK =
  'Flashing: each light makes at most three opposing changes a second, however fast the key is hit.';
const ALLOWED =
  'This plan asks for flashing, which can set off seizures. Each light stays limited to three opposing changes a second until everybody was told.';
const FREE = 'The limit on flashing is off: everybody was told.';

class FlashingCaution extends HTMLElement {
  #words = document.createElement('p');
  #key = document.createElement('button');
  #taps = new SecondTap();
  #back = null;
  #told = false;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#key.type = 'button';
    this.#key.className = 'small';
    this.#key.addEventListener('click', (event) => this.#tapped(event));
    ignoreRepeats(this.#key);
    this.append(this.#words, this.#key);
  }

  show({ allowed, acknowledged }) {
    const key = `${allowed} ${acknowledged}`;
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#told = allowed && acknowledged;
    this.classList.toggle('asks', allowed && !acknowledged);
    this.classList.toggle('free', this.#told);
    this.#words.textContent = !allowed ? HELD_BACK : acknowledged ? FREE : ALLOWED;
    this.#key.hidden = !allowed;
    this.#unask();
  }

  #tapped(event) {
    if (event.detail > 0) this.#key.blur();
    if (this.#told) {
      this.#send(false);
      return;
    }
    const verdict = this.#taps.tap('told', performance.now());
    if (verdict === 'ask') {
      this.#key.textContent = 'Band, crew, guests: all of them? Tap again';
      this.#key.classList.add('asking');
      clearTimeout(this.#back);
      this.#back = setTimeout(() => this.#unask(), ASK_MILLIS);
    } else if (verdict === 'go') {
      this.#unask();
      this.#send(true);
    }
  }

  #unask() {
    clearTimeout(this.#back);
    this.#taps.forget();
    this.#key.classList.remove('asking');
    this.#key.textContent = this.#told ? 'Put the limit back on' : 'Everybody was told';
  }

  #send(detail) {
    this.dispatchEvent(new CustomEvent('flashing-do', { detail }));
  }
}

customElements.define('flashing-caution', FlashingCaution);
