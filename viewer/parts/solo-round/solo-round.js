/**
 * Who has no solo yet, and one key that makes a round of them the next shots.
 *
 * show(solos): the part of the crew message. key(key): true if it meant something here.
 * Sends 'solos-do'.
 */
class SoloRound extends HTMLElement {
  #key = document.createElement('button');
  #head = document.createElement('span');
  #who = document.createElement('span');
  #can = false;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#key.type = 'button';
    this.#head.className = 'head';
    this.#who.className = 'who';
    this.#key.append(this.#head, this.#who);
    this.append(this.#key);
    this.#key.addEventListener('click', (event) => {
      if (event.detail > 0) this.#key.blur();
      this.#send();
    });
  }

  show(solos) {
    const key = JSON.stringify(solos);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#can = solos.canRound;
    const none = solos.missing.length === 0;
    const by = document.createElement('kbd');
    by.textContent = 'S';
    if (none) this.#head.replaceChildren('All solos made');
    else this.#head.replaceChildren('Solos round ', by);
    this.#who.textContent = none ? '' : `no solo: ${solos.missing.join(', ')}`;
    this.#key.setAttribute('aria-disabled', String(!solos.canRound));
    this.#key.title = solos.says;
  }

  key(key) {
    if (key !== 's') return false;
    this.#send();
    return true;
  }

  #send() {
    if (this.#can) this.dispatchEvent(new CustomEvent('solos-do'));
  }
}

customElements.define('solo-round', SoloRound);
