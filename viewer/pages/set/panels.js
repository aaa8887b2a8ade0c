/**
 * The parts that share one place on the page: one key each, one of them shown. The choice stands
 * behind the # of the address, so that the page comes back to it.
 */
export class Panels {
  #keys;
  #shown;
  #changed;

  /**
   * @param {HTMLElement} switches holds a button for each panel, with the panel's id as value
   * @param {(name: string) => void} changed told which panel is shown now
   */
  constructor(switches, changed) {
    this.#keys = [...switches.querySelectorAll('button')];
    this.#changed = changed;
    for (const key of this.#keys) {
      key.addEventListener('click', (event) => {
        if (event.detail > 0) key.blur();
        this.show(key.value);
      });
    }
    addEventListener('hashchange', () => this.show(this.#asked()));
    this.show(this.#asked());
  }

  #asked() {
    const key = this.#keys.find((one) => `#${one.value}` === location.hash) ?? this.#keys[0];
    return key.value;
  }

  get shown() {
    return this.#shown;
  }

  show(name) {
    if (name === this.#shown) return;
    this.#shown = name;
    for (const key of this.#keys) {
      const shown = key.value === name;
      key.setAttribute('aria-pressed', String(shown));
      document.getElementById(key.value).hidden = !shown;
    }
    history.replaceState(null, '', `#${name}`);
    this.#changed(name);
  }

  /** Something there wants to be seen: words behind the panel's name. */
  mark(name, words) {
    const key = this.#keys.find((one) => one.value === name);
    key.querySelector('.mark').textContent = words;
  }
}
