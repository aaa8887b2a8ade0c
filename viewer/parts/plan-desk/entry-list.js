import { element, key, put } from './dom.js';

/**
 * The entries of a tab, one of them chosen, with the keys that add, copy, remove and move. An entry is
 * dragged by its grip; Alt with an arrow moves it too.
 *
 * Calls `does(what, detail)`: 'choose' index, 'add', 'copy', 'remove', 'move' {from, to}.
 */
export class EntryList {
  element = element('div', 'entries');
  #list = element('ol');
  #keys = element('div', 'entry-keys');
  #buttons = {};
  #does;
  #lines = [];
  #chosen = -1;
  #fixed = 0;
  #drag = null;

  constructor(does) {
    this.#does = does;
    for (const [what, words] of [
      ['add', 'Add'],
      ['copy', 'Copy'],
      ['remove', 'Remove'],
      ['up', 'Up'],
      ['down', 'Down'],
    ]) {
      this.#buttons[what] = key(words, () => this.#press(what));
      this.#buttons[what].dataset.what = what;
      this.#keys.append(this.#buttons[what]);
    }
    this.#keys.setAttribute('role', 'group');
    this.element.append(this.#list, this.#keys);
    this.#list.addEventListener('keydown', (event) => this.#key(event));
  }

  /**
   * @param {{name: string, aside: string}[]} lines
   * @param {number} chosen index of the one that is shown
   * @param {object} how
   * @param {string} how.one what an entry is called: 'a person'
   * @param {number} how.fixed how many entries at the start are none of the list
   */
  show(lines, chosen, { one, fixed = 0, copies = true }) {
    this.#lines = lines;
    this.#chosen = chosen;
    this.#fixed = fixed;
    this.#keys.setAttribute('aria-label', one);
    while (this.#list.children.length > lines.length) this.#list.lastChild.remove();
    while (this.#list.children.length < lines.length) this.#list.append(this.#line());
    lines.forEach(({ name, aside }, i) => {
      const item = this.#list.children[i];
      const [choose, grip] = item.children;
      put(choose.firstChild, name === '' ? 'no name' : name);
      put(choose.lastChild, aside);
      item.classList.toggle('chosen', i === chosen);
      if (i === chosen) choose.setAttribute('aria-current', 'true');
      else choose.removeAttribute('aria-current');
      grip.hidden = i < fixed;
      grip.setAttribute('aria-label', `Move ${name}`);
    });
    const movable = chosen >= fixed && chosen < lines.length;
    this.#able('copy', movable && copies);
    this.#able('remove', movable);
    this.#able('up', movable && chosen > fixed);
    this.#able('down', movable && chosen < lines.length - 1);
  }

  /** In sight, without moving the page. */
  reveal() {
    const item = this.#list.children[this.#chosen];
    if (item === undefined) return;
    const { offsetTop, offsetHeight } = item;
    const list = this.#list;
    if (offsetTop < list.scrollTop) list.scrollTop = offsetTop;
    else if (offsetTop + offsetHeight > list.scrollTop + list.clientHeight) {
      list.scrollTop = offsetTop + offsetHeight - list.clientHeight;
    }
  }

  #able(what, can) {
    this.#buttons[what].setAttribute('aria-disabled', String(!can));
  }

  #press(what) {
    if (this.#buttons[what].getAttribute('aria-disabled') === 'true') return;
    if (what === 'up') this.#move(this.#chosen, this.#chosen - 1);
    else if (what === 'down') this.#move(this.#chosen, this.#chosen + 1);
    else this.#does(what);
  }

  #move(from, to) {
    if (to === from || to < this.#fixed || to >= this.#lines.length || from < this.#fixed) return;
    this.#does('move', { from: from - this.#fixed, to: to - this.#fixed });
  }

  #line() {
    const item = element('li');
    const choose = key('', () => this.#does('choose', this.#indexOf(item)), 'choose');
    choose.append(element('span', 'name'), ' ', element('span', 'aside'));
    const grip = key('', () => this.#does('choose', this.#indexOf(item)), 'grip');
    grip.addEventListener('pointerdown', (event) => this.#grab(event, item, grip));
    grip.addEventListener('pointermove', (event) => this.#pull(event));
    grip.addEventListener('pointerup', () => this.#drop(true));
    grip.addEventListener('pointercancel', () => this.#drop(false));
    item.append(choose, grip);
    return item;
  }

  #indexOf(item) {
    return [...this.#list.children].indexOf(item);
  }

  #key(event) {
    const item = event.target.closest('li');
    const way = { ArrowUp: -1, ArrowDown: 1 }[event.key];
    if (event.key === 'Escape' && this.#drag !== null) {
      event.preventDefault();
      event.stopPropagation();
      this.#drop(false);
      return;
    }
    if (way === undefined || item === null) return;
    event.preventDefault();
    const from = this.#indexOf(item);
    if (event.altKey || event.target.classList.contains('grip')) {
      this.#move(from, from + way);
      this.#list.children[from + way]?.querySelector(event.altKey ? '.choose' : '.grip')?.focus();
    } else {
      this.#list.children[from + way]?.firstChild.focus();
    }
  }

  #grab(event, item, grip) {
    if (event.button !== 0 || !event.isPrimary) return;
    grip.setPointerCapture(event.pointerId);
    const from = this.#indexOf(item);
    this.#drag = { from, to: from, item };
    item.classList.add('held');
  }

  #pull({ clientY }) {
    if (this.#drag === null) return;
    const rows = [...this.#list.children];
    const over = rows.findIndex((row) => clientY < row.getBoundingClientRect().bottom);
    const to = Math.max(this.#fixed, over < 0 ? rows.length - 1 : over);
    this.#drag.to = to;
    rows.forEach((row, i) => {
      row.classList.toggle('above', i === to && to < this.#drag.from);
      row.classList.toggle('below', i === to && to > this.#drag.from);
    });
    const box = this.#list.getBoundingClientRect();
    if (clientY < box.top + 20) this.#list.scrollTop -= 12;
    if (clientY > box.bottom - 20) this.#list.scrollTop += 12;
  }

  #drop(counts) {
    if (this.#drag === null) return;
    const { from, to, item } = this.#drag;
    this.#drag = null;
    item.classList.remove('held');
    for (const row of this.#list.children) row.classList.remove('above', 'below');
    if (counts) this.#move(from, to);
  }
}
