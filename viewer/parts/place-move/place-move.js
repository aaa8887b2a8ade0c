import { ASK_MILLIS, ignoreRepeats, SecondTap } from '../../live/second-tap.js';

/**
 * The places of the shoot: from when until when, how to get in, whom to ask, and what can be made
 * there. To go to one takes two taps; between them stands what will not be possible.
 *
 * show(places): the part of the crew message. Sends 'place-do' (detail: its name).
 */
const READ_MILLIS = ASK_MILLIS;

class PlaceMove extends HTMLElement {
  #says = document.createElement('p');
  #list = document.createElement('ul');
  #taps = new SecondTap();
  #back = null;
  #asking = null;
  #places = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    const head = document.createElement('h2');
    head.textContent = 'Places';
    this.#says.className = 'says';
    this.#says.setAttribute('role', 'status');
    this.append(head, this.#says, this.#list);
    ignoreRepeats(this);
  }

  show(places) {
    const key = JSON.stringify(places);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    const moved = this.#places?.now !== places.now;
    this.#places = places;
    this.#says.textContent = places.says === '' ? '' : `${places.now}: ${places.says}`;
    if (moved) this.#unask();
    else this.#draw();
  }

  #draw() {
    const { list } = this.#places;
    const had = [...this.#list.querySelectorAll('button')].indexOf(document.activeElement);
    this.#list.replaceChildren(...list.map((place) => this.#line(place, list)));
    if (had >= 0) this.#list.querySelectorAll('button')[had]?.focus();
  }

  #line(place, all) {
    const item = document.createElement('li');
    item.classList.toggle('now', place.now);
    const words = document.createElement('div');
    words.className = 'words';
    const name = document.createElement('b');
    name.textContent = place.name;
    words.append(name, ' ', timesOf(place));
    for (const fact of factsOf(place)) words.append(line(fact, ''));
    if (place.missing.length > 0) words.append(line(`Not there: ${place.missing.join(', ')}`, ''));
    item.append(words);
    if (place.now) {
      const here = document.createElement('span');
      here.className = 'here';
      here.textContent = 'here';
      item.append(here);
      return item;
    }
    const asks = this.#asking === place.name;
    const key = document.createElement('button');
    key.type = 'button';
    key.className = asks ? 'small asking' : 'small';
    key.textContent = asks ? `${lossOf(place, all)} Go all the same? Tap again` : 'Go there';
    key.setAttribute('aria-label', `${key.textContent}: ${place.name}`);
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      this.#tapped(place.name);
    });
    item.classList.toggle('asks', asks);
    item.append(key);
    return item;
  }

  #tapped(name) {
    const verdict = this.#taps.tap(name, performance.now());
    if (verdict === 'ask') {
      this.#asking = name;
      clearTimeout(this.#back);
      this.#back = setTimeout(() => this.#unask(), READ_MILLIS);
      this.#draw();
    } else if (verdict === 'go') {
      this.#unask();
      this.dispatchEvent(new CustomEvent('place-do', { detail: name }));
    }
  }

  #unask() {
    clearTimeout(this.#back);
    this.#taps.forget();
    this.#asking = null;
    this.#draw();
  }
}

function timesOf({ from, until }) {
  if (from !== null && until !== null) return `${from} to ${until}`;
  if (from !== null) return `from ${from}`;
  return until === null ? '' : `until ${until}`;
}

function factsOf({ access, ask, notes, shots }) {
  const facts = [access, ask === '' ? '' : `ask ${ask}`, ...notes];
  const words = facts.filter((fact) => fact !== '').join('; ');
  const can = shots === 1 ? '1 shot can be made there' : `${shots} shots can be made there`;
  return words === '' ? [can] : [words, can];
}

/** What goes by the move: lights that stay behind, shots that cannot be made there. */
function lossOf(place, all) {
  const here = all.find((one) => one.now)?.shots ?? place.shots;
  const loss = [];
  if (place.missing.length > 0) loss.push(`without ${place.missing.join(', ')}`);
  if (place.shots < here) loss.push(`${place.shots} shots instead of ${here}`);
  return loss.length === 0 ? 'All can be made there.' : `${capital(loss.join('; '))}.`;
}

const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

function line(words, className) {
  const made = document.createElement('span');
  made.className = `fact ${className}`.trim();
  made.textContent = words;
  return made;
}

customElements.define('place-move', PlaceMove);
