import { thumbUrl } from '../../live/sample.js';

/**
 * Frames, the newest first. One is under the eye; a tap picks another, and a tap on the newest goes
 * back to following what comes.
 *
 * show(frames, picked): picked is the number of the one that is looked at. Sends 'pick' (detail:
 * number), and 'all' when older ones are asked for.
 */
const MARKS = { kept: '✓', out: '✕', none: '' };
const MARK_WORDS = { kept: 'kept', out: 'not kept', none: '' };

class FrameStrip extends HTMLElement {
  #list = document.createElement('ol');
  #all = document.createElement('button');

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#all.type = 'button';
    this.#all.className = 'small all';
    this.#all.textContent = 'All';
    this.#all.addEventListener('click', (event) => {
      if (event.detail > 0) this.#all.blur();
      this.dispatchEvent(new CustomEvent('all'));
    });
    this.append(this.#list, this.#all);
  }

  show(frames, picked) {
    const key = JSON.stringify([frames, picked]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    // Frames are numbered without a gap, from 1.
    this.#all.hidden = frames.length === 0 || frames.at(-1).number === 1;
    const there = new Map([...this.#list.children].map((item) => [item.dataset.number, item]));
    const items = frames.map((frame) => {
      const item = there.get(String(frame.number)) ?? this.#item(frame.number);
      fill(item, frame, frame.number === picked);
      return item;
    });
    // Moving an element loads its picture again in no browser, but takes the focus in all.
    const focused = document.activeElement;
    this.#list.replaceChildren(...items);
    if (focused instanceof HTMLElement && this.contains(focused)) focused.focus();
  }

  #item(number) {
    const item = document.createElement('li');
    item.dataset.number = String(number);
    const key = document.createElement('button');
    key.type = 'button';
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      this.dispatchEvent(new CustomEvent('pick', { detail: number }));
    });
    const image = document.createElement('img');
    image.alt = '';
    image.loading = 'lazy';
    image.draggable = false;
    const words = document.createElement('span');
    key.append(image, words);
    item.append(key);
    return item;
  }
}

function fill(item, frame, picked) {
  const key = item.firstChild;
  const [image, words] = key.children;
  const url = thumbUrl(frame);
  if (image.getAttribute('src') !== url) image.src = url;
  item.className = frame.mark;
  key.setAttribute('aria-pressed', String(picked));
  const wrong = frame.remarks.some((one) => one.weight === 'wrong');
  words.textContent = [frame.number, MARKS[frame.mark], wrong ? '!' : ''].filter(Boolean).join(' ');
  key.setAttribute(
    'aria-label',
    [`Frame ${frame.number}`, MARK_WORDS[frame.mark], wrong ? 'something is wrong' : '']
      .filter(Boolean)
      .join(', '),
  );
}

customElements.define('frame-strip', FrameStrip);
