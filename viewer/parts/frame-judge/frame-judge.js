/**
 * What there is to say of one frame, and whether the photographer keeps it.
 *
 * show(frame, newest): frame may be null; newest is the number of the newest. Sends 'frame-do'
 * (detail: {number, do}), 'full-size' (detail: number) and 'follow' (back to the newest).
 */
class FrameJudge extends HTMLElement {
  #remarks = document.createElement('ul');
  #keys = document.createElement('div');
  #keep = this.#key('Keep', 'K', () => this.#mark('keep', 'kept'));
  #out = this.#key('Leave out', 'X', () => this.#mark('out', 'out'));
  #full = this.#key('100 %', 'Z', () => this.#send('full-size', this.#frame.number));
  #follow = this.#key('To the newest', '', () => this.#send('follow', null));
  #frame = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#keys.className = 'keys';
    this.#keys.append(this.#keep, this.#out, this.#full, this.#follow);
    this.append(this.#remarks, this.#keys);
  }

  show(frame, newest) {
    const key = JSON.stringify([frame, newest]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#frame = frame;
    this.hidden = frame === null;
    if (frame === null) return;
    this.#remarks.replaceChildren(...short(frame.remarks).map(remark));
    this.#keep.setAttribute('aria-pressed', String(frame.mark === 'kept'));
    this.#out.setAttribute('aria-pressed', String(frame.mark === 'out'));
    this.#follow.hidden = frame.number === newest;
  }

  /** By a key of the keyboard; true if it meant something. */
  key(letter, held) {
    const means = { k: this.#keep, x: this.#out, z: this.#full }[letter];
    if (means === undefined) return false;
    if (!held && this.#frame !== null) means.click();
    return true;
  }

  #mark(wish, mark) {
    const { number, mark: is } = this.#frame;
    this.#send('frame-do', { number, do: is === mark ? 'unmark' : wish });
  }

  #send(what, detail) {
    this.dispatchEvent(new CustomEvent(what, { detail }));
  }

  #key(name, letter, act) {
    const key = document.createElement('button');
    key.type = 'button';
    key.className = 'small';
    key.append(name);
    if (letter !== '') {
      const by = document.createElement('kbd');
      by.textContent = letter;
      key.append(' ', by);
    }
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      act();
    });
    return key;
  }
}

/** What is well takes one line. */
function short(remarks) {
  const good = remarks.filter((one) => one.weight === 'good');
  const rest = remarks.filter((one) => one.weight !== 'good');
  if (good.length === 0) return rest;
  return [...rest, { weight: 'good', says: good.map((one) => one.says).join('; ') }];
}

const SIGNS = { wrong: '✕', look: '?', good: '✓' };

function remark({ weight, says }) {
  const item = document.createElement('li');
  item.className = weight;
  const sign = document.createElement('span');
  sign.textContent = SIGNS[weight] ?? '';
  sign.setAttribute('aria-hidden', 'true');
  item.append(sign, ' ', says);
  return item;
}

customElements.define('frame-judge', FrameJudge);
