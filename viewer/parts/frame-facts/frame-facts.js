/**
 * What is known of one frame, which shot it is of, and what the band sees.
 *
 * show({frame, shots, band}): frame may be null. Sends 'frame-do' (detail: {number, do: 'belongs',
 * shot}) and 'show-do' (detail: all, kept, hold).
 */
const SHOWINGS = [
  ['all', 'All', 'each frame as it comes; one that is left out goes'],
  ['kept', 'Kept', 'only the newest that is kept'],
  ['hold', 'Hold', 'what they see now stays'],
];

class FrameFacts extends HTMLElement {
  #band = document.createElement('div');
  #showings = new Map();
  #about = document.createElement('p');
  #label = document.createElement('label');
  #shot = document.createElement('select');
  #facts = document.createElement('p');
  #frame = null;
  #waiting = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#band.className = 'band';
    this.#about.className = 'about';
    this.#facts.className = 'facts';
    const words = document.createElement('span');
    words.id = 'band-sees';
    words.textContent = 'The band sees';
    this.#band.setAttribute('role', 'group');
    this.#band.setAttribute('aria-labelledby', words.id);
    this.#band.append(words);
    for (const [value, name, title] of SHOWINGS) this.#showing(value, name, title);
    this.#label.append('Shot ', this.#shot);
    this.#shot.addEventListener('change', () => {
      this.#send('frame-do', { number: this.#frame.number, do: 'belongs', shot: this.#shot.value });
      this.#shot.blur();
    });
    this.#shot.addEventListener('blur', () => {
      const waiting = this.#waiting;
      // The focus has gone when this is over.
      if (waiting !== null) setTimeout(() => this.show(waiting), 0);
    });
    this.append(this.#band, this.#about, this.#label, this.#facts);
  }

  show({ frame, shots, band }) {
    // While somebody chooses, the question stays the one that was asked.
    if (document.activeElement === this.#shot) {
      this.#waiting = { frame, shots, band };
      return;
    }
    this.#waiting = null;
    const key = JSON.stringify([frame, shots.map(({ id, name }) => [id, name]), band]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#frame = frame;
    for (const [value, one] of this.#showings) {
      one.setAttribute('aria-pressed', String(band.showing === value));
    }
    this.#about.textContent = SHOWINGS.find(([value]) => value === band.showing)?.[2] ?? '';
    this.#label.hidden = frame === null;
    this.#facts.hidden = frame === null;
    if (frame === null) return;
    this.#shots(frame, shots);
    this.#facts.textContent = factsOf(frame, band);
  }

  #shots(frame, shots) {
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

  #showing(value, name, title) {
    const key = document.createElement('button');
    key.type = 'button';
    key.className = 'small';
    key.textContent = name;
    key.title = title;
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      this.#send('show-do', value);
    });
    this.#showings.set(value, key);
    this.#band.append(key);
  }

  #send(what, detail) {
    this.dispatchEvent(new CustomEvent(what, { detail }));
  }
}

function factsOf(frame, band) {
  const words = [`Frame ${frame.number}, at ${frame.takenAt}`];
  if (frame.people.length > 0) words.push(frame.people.join(', '));
  if (frame.byHand) words.push('its shot was set by hand');
  if (frame.raw) words.push('with a raw file');
  if (frame.copy !== '') words.push(frame.copy);
  if (band.frame === frame.number) words.push('the band sees it');
  return words.join('; ');
}

customElements.define('frame-facts', FrameFacts);
