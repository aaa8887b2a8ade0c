import { ASK_MILLIS, ignoreRepeats, SecondTap } from '../../live/second-tap.js';

/**
 * The running order as a set list on tape: done shots are struck through, the present one is under a
 * piece of coloured tape. A tap on another line asks 'go here?', a second one goes there.
 *
 * show({shots, current, coming, take}). Sends 'jump' (detail: place in the running order, from 1).
 */
class SetList extends HTMLElement {
  #list = document.createElement('ol');
  #asked = document.createElement('span');
  #taps = new SecondTap();
  #asking = null;
  #back = null;
  #shown = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#asked.className = 'for-ears';
    this.#asked.setAttribute('role', 'status');
    this.append(this.#list, this.#asked);
    ignoreRepeats(this);
    this.addEventListener('keydown', ({ key }) => {
      if (key === 'Escape') this.#unask();
    });
  }

  show({ shots, current, coming, take }) {
    const key = JSON.stringify([shots, current, coming, take]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    const moved = this.#shown === null || this.#shown.current !== current;
    this.#shown = { shots, current, coming, take };
    if (moved) this.#unask();
    this.classList.toggle('many', shots.length > 7);
    this.#draw();
    if (moved) this.#roll();
  }

  #draw() {
    const { shots, current, coming, take } = this.#shown;
    while (this.#list.children.length > shots.length) this.#list.lastChild.remove();
    while (this.#list.children.length < shots.length) this.#list.append(this.#line());
    const now = shots.findIndex((shot) => shot.id === current);
    const next = shots.findIndex((shot) => shot.id === coming);
    // Past shots are those before the present one; with none present, those before the next.
    const past = now >= 0 ? now : next >= 0 ? next : shots.length;
    shots.forEach((shot, index) => {
      const state = stateOf(index, past, now, next);
      const words = index === this.#asking ? 'Go here? Tap again' : asideOf(shot, state, take);
      fill(this.#list.children[index], shot, state, words, index === this.#asking);
    });
  }

  /** Not scrollIntoView: that would move the page as well. */
  #roll() {
    const mark = this.#list.querySelector('.now, .next');
    if (mark === null) return;
    this.scrollTop = mark.offsetTop - (this.clientHeight - mark.offsetHeight) / 2;
  }

  #line() {
    const item = document.createElement('li');
    const key = document.createElement('button');
    key.type = 'button';
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      this.#tapped([...this.#list.children].indexOf(item));
    });
    item.append(key);
    return item;
  }

  #tapped(index) {
    const shot = this.#shown.shots[index];
    if (shot.id === this.#shown.current) return;
    const verdict = this.#taps.tap(shot.id, performance.now());
    if (verdict === 'ask') {
      this.#asking = index;
      this.#asked.textContent = `Go to ${shot.name}? Press again.`;
      clearTimeout(this.#back);
      this.#back = setTimeout(() => this.#unask(), ASK_MILLIS);
      this.#draw();
    } else if (verdict === 'go') {
      this.#unask();
      this.dispatchEvent(new CustomEvent('jump', { detail: index + 1 }));
    }
  }

  #unask() {
    clearTimeout(this.#back);
    this.#taps.forget();
    this.#asked.textContent = '';
    if (this.#asking === null) return;
    this.#asking = null;
    this.#draw();
  }
}

function stateOf(index, past, now, next) {
  if (index === now) return 'now';
  if (index === next) return 'next';
  return index < past ? 'past' : 'later';
}

function fill(item, shot, state, words, asks) {
  item.className = asks ? `${state} asks` : state;
  if (state === 'now') item.setAttribute('aria-current', 'step');
  else item.removeAttribute('aria-current');
  const key = item.firstChild;
  key.setAttribute('aria-disabled', String(state === 'now'));
  const name = document.createElement(state === 'past' ? 's' : 'span');
  name.className = 'name';
  name.textContent = shot.name;
  const aside = document.createElement('span');
  aside.className = 'aside';
  aside.textContent = words;
  key.replaceChildren(name, ' ', aside);
}

function asideOf(shot, state, take) {
  const words = [];
  if (state === 'now') words.push(take > 1 ? `now, take ${take}` : 'now');
  if (state === 'next') words.push('next');
  if (shot.safe) words.push('the safe shot');
  if (shot.inTheBag) words.push('in the bag');
  if (shot.frames > 0) words.push(shot.frames === 1 ? '1 frame' : `${shot.frames} frames`);
  if (shot.frames === 0 && state === 'past') words.push('no frame');
  if (state === 'now' && shot.look !== shot.name.toLowerCase()) words.push(`look: ${shot.look}`);
  return words.join(', ');
}

customElements.define('set-list', SetList);
