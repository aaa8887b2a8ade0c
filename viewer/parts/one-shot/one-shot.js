/**
 * There is time for one shot only: which, loud, with a key that goes to it.
 *
 * show(cut, current): the part of the crew message; the present shot's id. Sends 'go-one' (detail:
 * the shot's id).
 */
class OneShot extends HTMLElement {
  #words = document.createElement('p');
  #key = document.createElement('button');
  #id = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#words.setAttribute('role', 'status');
    this.#key.type = 'button';
    this.#key.textContent = 'Go to it';
    this.#key.addEventListener('click', (event) => {
      if (event.detail > 0) this.#key.blur();
      this.dispatchEvent(new CustomEvent('go-one', { detail: this.#id }));
    });
    this.append(this.#words, this.#key);
    this.hidden = true;
  }

  show({ oneShot, oneShotSays }, current) {
    this.#id = oneShot;
    this.hidden = oneShot === null;
    const words = oneShot === null ? '' : oneShotSays;
    if (this.#words.textContent !== words) this.#words.textContent = words;
    this.#key.hidden = oneShot === current;
  }
}

customElements.define('one-shot', OneShot);
