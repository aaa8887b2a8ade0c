import { minutesSeconds } from '../../live/time.js';

/**
 * The window's clock: big figures, a word beside them.
 *
 * show(state, seconds) draws it; with the attribute `controls` it has a start/pause key and sends
 * 'clock-do' (detail: 'start'|'pause').
 */
class ShootClock extends HTMLElement {
  #figures = document.createElement('span');
  #word = document.createElement('span');
  #spoken = document.createElement('span');
  #key = document.createElement('button');
  #state = null;
  #said = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#figures.className = 'figures';
    this.#figures.setAttribute('role', 'timer');
    this.#word.className = 'word';
    this.#spoken.className = 'for-ears';
    this.#spoken.setAttribute('aria-live', 'polite');
    this.append(this.#figures, this.#word, this.#spoken);
    if (this.hasAttribute('controls')) {
      this.#key.type = 'button';
      this.#key.addEventListener('click', () => {
        const detail = this.#state === 'running' ? 'pause' : 'start';
        this.dispatchEvent(new CustomEvent('clock-do', { detail }));
      });
      this.append(this.#key);
    }
  }

  /** @param {'ready'|'running'|'paused'} state @param {number} seconds left, negative when over */
  show(state, seconds) {
    const over = seconds <= -1;
    this.#set(this.#figures, minutesSeconds(seconds));
    this.#set(this.#word, wordFor(state, over));
    this.#set(this.#key, { ready: 'Start the clock', paused: 'Go on' }[state] ?? 'Pause');
    this.classList.toggle('over', over);
    this.classList.toggle('paused', state === 'paused');
    this.#state = state;
    this.#say(state, seconds, over);
  }

  #set(element, text) {
    if (element.textContent !== text) element.textContent = text;
  }

  /** Each minute, and each change of state; not each second. */
  #say(state, seconds, over) {
    const minutes = Math.floor(Math.abs(seconds) / 60);
    const key = `${state} ${over} ${minutes}`;
    if (key === this.#said) return;
    this.#said = key;
    const few = minutes === 0 ? 'less than a minute' : `${minutes} min`;
    this.#spoken.textContent = over ? `over by ${few}` : `${few} left, clock ${state}`;
  }
}

function wordFor(state, over) {
  if (state === 'ready') return 'not started';
  if (state === 'paused') return over ? 'over, paused' : 'left, paused';
  return over ? 'over by' : 'left';
}

customElements.define('shoot-clock', ShootClock);
