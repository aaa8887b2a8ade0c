/**
 * Says on every page of the crew that a light or a slot is looked at alone.
 *
 * show(test): the part of the crew message, or null. Sends 'end-test'.
 */
class TestBanner extends HTMLElement {
  #words = document.createElement('p');
  #end = document.createElement('button');

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#words.setAttribute('role', 'status');
    this.#end.type = 'button';
    this.#end.textContent = 'End the test';
    this.#end.hidden = true;
    this.#end.addEventListener('click', (event) => {
      if (event.detail > 0) this.#end.blur();
      this.dispatchEvent(new CustomEvent('end-test'));
    });
    this.append(this.#words, this.#end);
  }

  show(test) {
    const words = test === null ? '' : `Test: ${test.says}`;
    if (this.#words.textContent !== words) this.#words.textContent = words;
    this.#end.hidden = test === null;
    this.classList.toggle('on', test !== null);
  }
}

customElements.define('test-banner', TestBanner);
