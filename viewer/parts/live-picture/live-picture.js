/**
 * One picture, swapped at once and only when the new one can be drawn.
 *
 * show(url, alt): the url of the picture, or null for none. The newest wins even if an older one
 * decodes later. Sends 'shown' (detail: url). A picture that cannot be had is tried again.
 */
const RETRY_MILLIS = 1500;

class LivePicture extends HTMLElement {
  #wanted = null;
  #shown = null;

  show(url, alt) {
    if (url === this.#wanted) {
      if (this.#shown !== null && this.#shown.url === url) this.#shown.image.alt = alt;
      return;
    }
    this.#wanted = url;
    if (url === null) {
      this.#shown = null;
      this.replaceChildren();
      return;
    }
    this.#load(url, alt);
  }

  async #load(url, alt) {
    const image = new Image();
    image.alt = alt;
    image.draggable = false;
    image.src = url;
    try {
      await image.decode();
    } catch {
      if (this.#wanted === url) {
        setTimeout(() => {
          if (this.#wanted === url) this.#load(url, alt);
        }, RETRY_MILLIS);
      }
      return;
    }
    if (this.#wanted !== url) return;
    this.#shown = { url, image };
    this.replaceChildren(image);
    this.dispatchEvent(new CustomEvent('shown', { detail: url }));
  }
}

customElements.define('live-picture', LivePicture);
