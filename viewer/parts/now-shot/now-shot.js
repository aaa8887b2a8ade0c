/**
 * What is being shot: its name, what to say to the people, who stands how.
 *
 * show(shot, count, waiting): a shot of the crew message, or null before the first; count as
 * '2 of 9, take 2'; waiting: what to say while there is no shot.
 */
class NowShot extends HTMLElement {
  #head = document.createElement('p');
  #name = document.createElement('span');
  #count = document.createElement('span');
  #say = document.createElement('ul');
  #who = document.createElement('p');

  connectedCallback() {
    if (this.firstChild !== null) return;
    const mark = document.createElement('span');
    mark.className = 'mark';
    mark.textContent = 'Now';
    this.#head.className = 'head';
    this.#name.className = 'name';
    this.#count.className = 'count';
    this.#head.append(mark, ' ', this.#name, ' ', this.#count);
    this.#say.className = 'say';
    this.#who.className = 'who';
    this.append(this.#head, this.#say, this.#who);
    this.setAttribute('aria-live', 'polite');
  }

  show(shot, count, waiting) {
    const key = JSON.stringify([shot?.name, shot?.say, shot?.people, shot?.arrangement, count, waiting]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.classList.toggle('none', shot === null);
    this.#name.textContent = shot === null ? 'nothing yet' : shot.name;
    this.#count.textContent = count;
    const lines = shot === null ? waiting : shot.say;
    this.#say.replaceChildren(
      ...lines.map((line) => {
        const item = document.createElement('li');
        item.textContent = line;
        return item;
      }),
    );
    this.#who.textContent = shot === null ? '' : whoStandsHow(shot);
  }
}

function whoStandsHow(shot) {
  const names = shot.people.join(', ');
  return shot.people.length > 1 ? `${shot.arrangement}: ${names}` : `${names}, ${shot.arrangement}`;
}

customElements.define('now-shot', NowShot);
