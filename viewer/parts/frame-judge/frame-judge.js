/**
 * What there is to say of one frame, and what the photographer does with it; and what the band sees.
 *
 * show({frame, shots, band, newest}): frame may be null. Sends 'frame-do' (detail: {number, do,
 * shot?}), 'show-do' (detail: all, kept, hold), 'full-size' (detail: number) and 'follow' (back to
 * the newest).
 */
const SHOWINGS = [
  ['all', 'All', 'each frame as it comes'],
  ['kept', 'Kept', 'only what is kept'],
  ['hold', 'Hold', 'what they see now stays'],
];

class FrameJudge extends HTMLElement {
  #remarks = document.createElement('ul');
  #keys = document.createElement('div');
  #keep = this.#key('Keep', 'K', () => this.#mark('keep', 'kept'));
  #out = this.#key('Not', 'X', () => this.#mark('out', 'out'));
  #full = this.#key('100 %', 'Z', () => this.#send('full-size', this.#frame.number));
  #follow = this.#key('To the newest', '', () => this.#send('follow', null));
  #shot = document.createElement('select');
  #facts = document.createElement('p');
  #band = document.createElement('div');
  #showings = new Map();
  #frame = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#keys.className = 'keys';
    this.#facts.className = 'facts';
    this.#band.className = 'band';
    const label = document.createElement('label');
    label.className = 'shot';
    label.append('of ', this.#shot);
    this.#shot.addEventListener('change', () => {
      this.#send('frame-do', {
        number: this.#frame.number,
        do: 'belongs',
        shot: this.#shot.value,
      });
      this.#shot.blur();
    });
    this.#keys.append(this.#keep, this.#out, this.#full, label, this.#follow);
    const words = document.createElement('span');
    words.id = 'band-sees';
    words.textContent = 'The band sees';
    this.#band.setAttribute('role', 'group');
    this.#band.setAttribute('aria-labelledby', words.id);
    this.#band.append(words);
    for (const [value, name, title] of SHOWINGS) {
      const key = this.#key(name, '', () => this.#send('show-do', value));
      key.title = title;
      this.#showings.set(value, key);
      this.#band.append(key);
    }
    this.append(this.#remarks, this.#keys, this.#facts, this.#band);
  }

  show({ frame, shots, band, newest }) {
    const key = JSON.stringify([frame, shots.map(({ id, name }) => [id, name]), band, newest]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#frame = frame;
    for (const [value, one] of this.#showings) {
      one.setAttribute('aria-pressed', String(band.showing === value));
    }
    this.#keys.hidden = frame === null;
    this.#facts.hidden = frame === null;
    this.#remarks.replaceChildren(...(frame?.remarks ?? []).map(remark));
    if (frame === null) return;
    this.#keep.setAttribute('aria-pressed', String(frame.mark === 'kept'));
    this.#out.setAttribute('aria-pressed', String(frame.mark === 'out'));
    this.#follow.hidden = frame.number === newest;
    this.#shots(frame, shots);
    this.#facts.textContent = factsOf(frame, band);
  }

  /** By a key of the keyboard; true if it meant something. */
  key(letter, held) {
    const means = { k: this.#keep, x: this.#out, z: this.#full }[letter];
    if (means === undefined) return false;
    if (!held && this.#frame !== null) means.click();
    return true;
  }

  #shots(frame, shots) {
    if (document.activeElement === this.#shot) return;
    const none = [['', 'no shot']];
    const gone = frame.shot !== null && !shots.some((one) => one.id === frame.shot);
    const all = [
      ...none,
      ...shots.map((one) => [one.id, one.name]),
      ...(gone ? [[frame.shot, frame.shot]] : []),
    ];
    this.#shot.replaceChildren(
      ...all.map(([id, name]) => new Option(name, id, false, id === (frame.shot ?? ''))),
    );
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

function factsOf(frame, band) {
  const words = [`at ${frame.takenAt}`];
  if (frame.people.length > 0) words.push(frame.people.join(', '));
  if (frame.byHand) words.push('its shot was set by hand');
  if (frame.raw) words.push('with a raw file');
  if (frame.copy !== '') words.push(frame.copy);
  if (band.frame === frame.number) words.push('the band sees it');
  return words.join('; ');
}

customElements.define('frame-judge', FrameJudge);
