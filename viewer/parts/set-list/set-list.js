/**
 * The running order as a set list on tape: done shots are struck through, the present one is under a
 * piece of coloured tape.
 *
 * show({shots, current, coming})
 */
class SetList extends HTMLElement {
  #list = document.createElement('ol');

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.append(this.#list);
  }

  show({ shots, current, coming }) {
    const now = shots.findIndex((shot) => shot.id === current);
    const next = shots.findIndex((shot) => shot.id === coming);
    const key = JSON.stringify([shots, current, coming]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    // Past shots are those before the present one; with none present, those before the next.
    const past = now >= 0 ? now : next >= 0 ? next : shots.length;
    this.#list.replaceChildren(
      ...shots.map((shot, index) => line(shot, stateOf(index, past, now, next))),
    );
    this.classList.toggle('many', shots.length > 7);
    // Not scrollIntoView: that would move the page as well.
    const mark = this.#list.querySelector('.now, .next');
    if (mark !== null) {
      this.scrollTop = mark.offsetTop - (this.clientHeight - mark.offsetHeight) / 2;
    }
  }
}

function stateOf(index, past, now, next) {
  if (index === now) return 'now';
  if (index === next) return 'next';
  return index < past ? 'past' : 'later';
}

function line(shot, state) {
  const item = document.createElement('li');
  item.className = state;
  if (state === 'now') item.setAttribute('aria-current', 'step');
  const name = document.createElement(state === 'past' ? 's' : 'span');
  name.className = 'name';
  name.textContent = shot.name;
  const aside = document.createElement('span');
  aside.className = 'aside';
  aside.textContent = asideOf(shot, state);
  item.append(name, ' ', aside);
  return item;
}

function asideOf(shot, state) {
  const words = [];
  if (state === 'now') words.push('now');
  if (state === 'next') words.push('next');
  if (shot.safe) words.push('the safe shot');
  if (shot.frames > 0) words.push(shot.frames === 1 ? '1 frame' : `${shot.frames} frames`);
  if (shot.frames === 0 && state === 'past') words.push('no frame');
  if (state === 'now' && shot.look !== shot.name.toLowerCase()) words.push(`look: ${shot.look}`);
  return words.join(', ');
}

customElements.define('set-list', SetList);
