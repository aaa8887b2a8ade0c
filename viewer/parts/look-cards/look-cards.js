import { smallPictureUrl } from '../../live/sample.js';

/**
 * Looks that differ most from each other, each with its picture: dashed where it is computed.
 *
 * show(answer): of POST /suggest, or null for none yet; busy(on). Sends 'suggest', 'suggestion-try'
 * (detail: the suggestion) and 'suggestion-put' (detail: its id).
 */
class LookCards extends HTMLElement {
  #ask = document.createElement('button');
  #says = document.createElement('p');
  #list = document.createElement('ol');
  #busy = false;

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#ask.type = 'button';
    this.#ask.className = 'small';
    this.#ask.addEventListener('click', () => {
      if (!this.#busy) this.dispatchEvent(new CustomEvent('suggest'));
    });
    this.#says.setAttribute('role', 'status');
    this.append(this.#ask, this.#says, this.#list);
    this.busy(false);
  }

  busy(on) {
    this.#busy = on;
    this.#ask.textContent = on ? 'Looking …' : 'Suggest looks that differ most';
    this.#ask.setAttribute('aria-disabled', String(on));
  }

  show(answer) {
    this.#says.textContent = answer === null ? '' : answer.says;
    this.#list.replaceChildren(...(answer?.looks ?? []).map((one) => this.#card(one)));
  }

  #card(one) {
    const item = document.createElement('li');
    const image = document.createElement('img');
    image.decoding = 'async';
    image.loading = 'lazy';
    image.src = smallPictureUrl(`${one.picture.url}`);
    image.alt = `${one.name}, ${one.picture.says}`;
    image.className = one.picture.plates ? 'plates' : '';
    const name = document.createElement('h3');
    name.textContent = one.name;
    const why = document.createElement('p');
    why.textContent = one.why;
    item.append(image, name, why);
    if (one.move !== '') {
      const move = document.createElement('p');
      move.className = 'move';
      move.textContent = one.move;
      item.append(move);
    }
    const keys = document.createElement('div');
    keys.append(
      this.#key('Try it', one.name, () => {
        this.dispatchEvent(new CustomEvent('suggestion-try', { detail: one }));
      }),
      this.#key('Into the order', one.name, () => {
        this.dispatchEvent(new CustomEvent('suggestion-put', { detail: one.id }));
      }),
    );
    item.append(keys);
    return item;
  }

  #key(words, name, press) {
    const key = document.createElement('button');
    key.type = 'button';
    key.className = 'small';
    key.textContent = words;
    key.setAttribute('aria-label', `${words}: ${name}`);
    key.addEventListener('click', press);
    return key;
  }
}

customElements.define('look-cards', LookCards);
