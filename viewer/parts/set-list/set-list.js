import { smallPictureUrl } from '../../live/sample.js';
import { spanWords, startWords } from '../../live/spans.js';
import { ASK_MILLIS, ignoreRepeats, SecondTap } from '../../live/second-tap.js';

/**
 * The running order as a set list on tape: done shots are struck through, the present one is under a
 * piece of coloured tape. A tap on another line asks 'go here?', a second one goes there. Beside each
 * stands what the clock will show when it begins, and what it takes, and a small picture of what is
 * to come: dashed where it is computed, whole where it is from plates. Below the list what a re-cut
 * left out.
 *
 * show(message): the crew message. Sends 'jump' (detail: place in the running order, from 1) and
 * 'jump-to' (detail: id of a shot that is left out).
 */
class SetList extends HTMLElement {
  #list = document.createElement('ol');
  #out = document.createElement('section');
  #outList = document.createElement('ol');
  #asked = document.createElement('span');
  #taps = new SecondTap();
  #asking = null;
  #back = null;
  #shown = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#asked.className = 'for-ears';
    this.#asked.setAttribute('role', 'status');
    const head = document.createElement('h2');
    head.textContent = 'Left out';
    this.#out.append(head, this.#outList);
    this.append(this.#list, this.#out, this.#asked);
    ignoreRepeats(this);
    this.addEventListener('keydown', ({ key }) => {
      if (key === 'Escape') this.#unask();
    });
  }

  show({ shots, leftOut, current, coming, take, clock, jobs }) {
    const job = jobs.list.length > 1 ? jobs.current : null;
    const key = JSON.stringify([shots, leftOut, current, coming, take, job, clock.leftSeconds]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    const moved = this.#shown === null || this.#shown.current !== current;
    const recut = this.#shown !== null && ids(this.#shown.shots) !== ids(shots);
    this.#shown = { shots, leftOut, current, coming, take, left: clock.leftSeconds, job };
    if (moved || recut) this.#unask();
    this.classList.toggle('many', shots.length > 7);
    this.#draw();
    if (moved || recut) this.#roll();
  }

  #draw() {
    const { shots, leftOut, current, coming } = this.#shown;
    this.#lines(this.#list, shots.length);
    this.#lines(this.#outList, leftOut.length);
    this.#out.hidden = leftOut.length === 0;
    const now = shots.findIndex((shot) => shot.id === current);
    const next = shots.findIndex((shot) => shot.id === coming);
    // Past shots are those before the present one; with none present, those before the next.
    const past = now >= 0 ? now : next >= 0 ? next : shots.length;
    shots.forEach((shot, index) => {
      this.#fill(this.#list.children[index], shot, stateOf(index, past, now, next));
    });
    leftOut.forEach((shot, index) => this.#fill(this.#outList.children[index], shot, 'out'));
  }

  #lines(list, count) {
    while (list.children.length > count) list.lastChild.remove();
    while (list.children.length < count) list.append(this.#line(list));
  }

  #fill(item, shot, state) {
    const asks = shot.id === this.#asking;
    const { take, left, job } = this.#shown;
    const words = asks ? 'Go here? Tap again' : asideOf(shot, state, take);
    const time = asks || state === 'past' || state === 'out' ? '' : timeOf(shot, left);
    // For whom it is: of what is made already only where that is somebody else.
    const tagged = job !== null && (state !== 'past' || shot.job !== job);
    fill(item, shot, { state, words, asks, time, job: tagged ? shot.job : '' });
  }

  /** A little of what was, then what is and comes. Not scrollIntoView: that would move the page. */
  #roll() {
    const mark = this.#list.querySelector('.now, .next');
    if (mark === null) return;
    this.scrollTop = mark.offsetTop - Math.max(0, this.clientHeight - mark.offsetHeight) * 0.25;
  }

  #line(list) {
    const item = document.createElement('li');
    const key = document.createElement('button');
    key.type = 'button';
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      this.#tapped(list, [...list.children].indexOf(item));
    });
    const picture = document.createElement('img');
    picture.decoding = 'async';
    picture.alt = '';
    // Its title is for eyes; ears have the words.
    picture.setAttribute('aria-hidden', 'true');
    picture.addEventListener('error', () => picture.removeAttribute('src'));
    key.append(picture, document.createElement('div'));
    item.append(key);
    return item;
  }

  #tapped(list, index) {
    const left = list === this.#outList;
    const shot = (left ? this.#shown.leftOut : this.#shown.shots)[index];
    if (shot.id === this.#shown.current) return;
    const verdict = this.#taps.tap(shot.id, performance.now());
    if (verdict === 'ask') {
      this.#asking = shot.id;
      this.#asked.textContent = `Go to ${shot.name}? Press again.`;
      clearTimeout(this.#back);
      this.#back = setTimeout(() => this.#unask(), ASK_MILLIS);
      this.#draw();
    } else if (verdict === 'go') {
      this.#unask();
      const event = left ? ['jump-to', { detail: shot.id }] : ['jump', { detail: index + 1 }];
      this.dispatchEvent(new CustomEvent(...event));
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

function fill(item, shot, { state, words, asks, time, job }) {
  item.className = [state, asks ? 'asks' : '', shot.fallsOff ? 'falls' : '']
    .filter((one) => one !== '')
    .join(' ');
  if (state === 'now') item.setAttribute('aria-current', 'step');
  else item.removeAttribute('aria-current');
  const key = item.firstChild;
  key.setAttribute('aria-disabled', String(state === 'now'));
  const name = document.createElement(state === 'past' ? 's' : 'span');
  name.className = 'name';
  name.textContent = shot.name;
  const parts = [name, ' ', span('aside', words)];
  if (time !== '') parts.unshift(span('time', time), ' ');
  if (job !== '') parts.push(' ', span('job', `for ${job}`));
  if (state !== 'past') parts.push(' ', span('for-ears', `picture: ${shot.picture.brief}`));
  key.lastChild.replaceChildren(...parts);
  drawPicture(key.firstChild, shot, state);
}

/** Of what is made there are photographs. Set again only if it is another, or it would flicker. */
function drawPicture(image, { picture }, state) {
  image.hidden = state === 'past';
  if (image.hidden) return;
  const url = smallPictureUrl(picture.url);
  if (image.getAttribute('src') !== url) image.src = url;
  image.className = picture.plates ? 'plates' : '';
  image.title = picture.says;
}

function asideOf(shot, state, take) {
  const words = [];
  if (state === 'out') words.push(shot.why);
  if (state === 'now') words.push(take > 1 ? `now, take ${take}` : 'now');
  if (state === 'next') words.push('next');
  if (shot.fallsOff) words.push('falls off');
  if (shot.safe) words.push('the safe shot');
  if (shot.inTheBag) words.push('in the bag');
  if (shot.frames > 0) words.push(shot.frames === 1 ? '1 frame' : `${shot.frames} frames`);
  if (shot.frames === 0 && state === 'past') words.push('no frame');
  if (state === 'now' && shot.look !== shot.name.toLowerCase()) words.push(`look: ${shot.look}`);
  if ((state === 'next' || state === 'later') && shot.change !== '') {
    words.push(`change: ${shot.change}`);
  }
  return words.filter((one) => one !== '').join(', ');
}

/** When it begins, by the window's clock, and how long it takes. */
function timeOf({ startsInSeconds, takesSeconds, fallsOff }, left) {
  const takes = spanWords(takesSeconds);
  const starts = fallsOff ? '' : startWords(left, startsInSeconds);
  return starts === '' ? takes : `at ${starts}, ${takes}`;
}

const ids = (shots) => shots.map(({ id }) => id).join(' ');

function span(className, words) {
  const made = document.createElement('span');
  made.className = className;
  made.textContent = words;
  return made;
}

customElements.define('set-list', SetList);
