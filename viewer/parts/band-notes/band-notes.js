/**
 * What is known of the band: notes, and pictures to look at. Not there while nothing is known.
 *
 * show(about): the part of the crew message.
 */
class BandNotes extends HTMLElement {
  #list = document.createElement('ul');
  #pictures = document.createElement('div');

  connectedCallback() {
    if (this.firstChild !== null) return;
    const head = document.createElement('h2');
    head.textContent = 'The band';
    this.#pictures.className = 'pictures';
    this.append(head, this.#list, this.#pictures);
  }

  show(about) {
    const key = JSON.stringify(about);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.hidden = about.notes.length === 0 && about.pictures.length === 0;
    this.#list.replaceChildren(
      ...about.notes.map((note) => {
        const item = document.createElement('li');
        item.textContent = note;
        return item;
      }),
    );
    this.#pictures.replaceChildren(...about.pictures.map(pictureOf));
  }
}

function pictureOf({ name, url }) {
  const whole = document.createElement('div');
  const image = document.createElement('img');
  image.alt = name;
  image.loading = 'lazy';
  const words = document.createElement('p');
  words.textContent = name;
  image.addEventListener('error', () => {
    image.hidden = true;
    words.textContent = `${name}: is not beside the plan, or is no JPEG, PNG or WebP`;
  });
  image.src = url;
  whole.append(image, words);
  return whole;
}

customElements.define('band-notes', BandNotes);
