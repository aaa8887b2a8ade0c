/**
 * Everybody, what is known of them, what there is of them, and a key for a solo of one.
 *
 * show(people, can): the part of the crew message; whether solos can be made now.
 * Sends 'solos-do' (detail: names).
 */
class PeopleList extends HTMLElement {
  #list = document.createElement('ul');

  connectedCallback() {
    if (this.firstChild !== null) return;
    const head = document.createElement('h2');
    head.textContent = 'People';
    this.append(head, this.#list);
  }

  show(people, can) {
    const key = JSON.stringify([people, can]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#list.replaceChildren(...people.map((one) => this.#line(one, can)));
  }

  #line(person, can) {
    const item = document.createElement('li');
    const words = document.createElement('span');
    words.className = 'words';
    const name = document.createElement('b');
    name.textContent = person.name;
    words.append(name, ' ', factsOf(person));
    const key = document.createElement('button');
    key.type = 'button';
    key.className = 'small';
    key.textContent = 'Solo';
    key.setAttribute('aria-label', `Solo of ${person.name} as the next shot`);
    key.setAttribute('aria-disabled', String(!can));
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      if (can) this.dispatchEvent(new CustomEvent('solos-do', { detail: [person.name] }));
    });
    item.append(words, key);
    return item;
  }
}

function factsOf({ part, note, soloInTheBag, soloFrames, groupFrames }) {
  const solo = soloInTheBag
    ? '✓ solo in the bag'
    : soloFrames === 0
      ? 'no solo yet'
      : `${frames(soloFrames)} alone, none kept`;
  return [part, note, solo, `${frames(groupFrames)} with others`]
    .filter((words) => words !== '')
    .join('; ');
}

const frames = (count) => (count === 1 ? '1 frame' : `${count} frames`);

customElements.define('people-list', PeopleList);
