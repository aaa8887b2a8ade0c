import { smallPictureUrl } from '../../live/sample.js';

/**
 * What a look will be like, small, and whether that is summed from plates or computed.
 *
 * show(picture, name): the picture of a shot as the crew message has it, or null for none; whose it
 * is. With the attribute `ink` it lies on tape.
 */
class LookPicture extends HTMLElement {
  #image = document.createElement('img');
  #words = document.createElement('span');

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#image.decoding = 'async';
    this.#image.addEventListener('error', () => this.#image.removeAttribute('src'));
    this.append(this.#image, this.#words);
    this.hidden = true;
  }

  show(picture, name) {
    this.hidden = picture === null;
    if (picture === null) return;
    const url = smallPictureUrl(picture.url);
    if (this.#image.getAttribute('src') !== url) this.#image.src = url;
    this.#image.alt = `${name}, ${picture.says}`;
    this.classList.toggle('plates', picture.plates);
    this.#words.textContent = picture.brief;
  }
}

customElements.define('look-picture', LookPicture);
