import { canDo, isNudge, whyNot } from '../../live/lighting.js';
import { LampLine } from './lamp-line.js';

/** What the keyboard does to the light that was chosen by its number. */
const KEYBOARD = new Map([
  ['ArrowUp', 'brighter'],
  ['ArrowDown', 'darker'],
  ['ArrowLeft', 'colder'],
  ['ArrowRight', 'warmer'],
  ['o', 'turn'],
]);
const HELP = [
  ['1 … 9', 'choose a light'],
  ['↑ ↓', 'brighter, darker'],
  ['← →', 'colder, warmer'],
  ['O', 'off, on'],
  ['U', 'undo'],
  ['Esc', 'no light chosen'],
];

/**
 * The lights as they are now, one line each with its keys, and what is done to the look as a whole.
 *
 * show(light, planned): the part of the crew message; camera settings as planned, or null.
 * key(key, held): a key of the keyboard; true if it meant something here.
 * Sends 'light-do' (detail: {wish, held}) for what can be done, and says why of what cannot. A <dl>
 * inside it names further keys of the page.
 */
class LightBoard extends HTMLElement {
  #says = element('p', 'says');
  #notes = element('ul', 'notes');
  #list = element('ol', 'lamps');
  #changes = element('ul', 'changes');
  #steady = element('div', 'steady');
  #why = element('p', 'why');
  #look = {};
  #lines = new Map();
  #chosen = null;
  #light = null;

  connectedCallback() {
    if (this.#list.isConnected) return;
    const rolls = element('div', 'rolls');
    const keys = help(this.querySelector('dl'));
    rolls.append(this.#says, this.#notes, this.#list, this.#changes, this.#steady, keys);
    this.#why.setAttribute('role', 'status');
    const whole = element('div', 'whole');
    whole.setAttribute('role', 'group');
    whole.setAttribute('aria-label', 'The whole look');
    for (const [what, words] of [
      ['undo', 'Undo'],
      ['swap', 'Swap left and right'],
      ['keep', 'Keep in the look'],
      ['forget', 'Forget'],
    ]) {
      this.#look[what] = this.#button(words, () => ({ do: what }));
      this.#look[what].dataset.what = what;
      whole.append(this.#look[what]);
    }
    this.replaceChildren(rolls, this.#why, whole);
    this.#list.addEventListener('focusin', ({ target }) => {
      for (const [name, line] of this.#lines) {
        if (line.element.contains(target) && target.matches(':focus-visible')) this.#choose(name);
      }
    });
  }

  show(light, planned) {
    const key = JSON.stringify([light, planned]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#light = light;
    put(this.#why, '');
    // Which look is on stands elsewhere on the page; anything else must be said here.
    put(this.#says, light.what === 'look' ? '' : light.says);
    fill(this.#notes, light.notes);
    fill(this.#changes, light.changes);
    this.#showLamps(light);
    this.#showSteady(light, planned);
    put(this.#look.undo, light.undo === null ? 'Undo' : `Undo: ${light.undo}`);
    put(this.#look.forget, light.kept && !light.open ? 'Forget what is kept' : 'Forget');
    for (const [what, button] of Object.entries(this.#look)) {
      button.setAttribute('aria-disabled', String(!canDo(light, { do: what })));
    }
  }

  key(key, held) {
    if (this.#light === null) return false;
    if (/^[1-9]$/.test(key)) {
      const name = [...this.#lines.keys()][Number(key) - 1];
      if (name === undefined) return false;
      this.#choose(name);
      this.#lines.get(name).element.scrollIntoView({ block: 'nearest' });
      return true;
    }
    if (key === 'u') {
      if (!held) this.#wish({ do: 'undo' }, false);
      return true;
    }
    if (this.#chosen === null) return false;
    if (key === 'Escape') {
      this.#choose(null);
      return true;
    }
    if (!KEYBOARD.has(key)) return false;
    const what = KEYBOARD.get(key);
    const wish = { do: what === 'turn' ? this.#turn() : what, light: this.#chosen };
    if (!held || isNudge(wish)) this.#wish(wish, held);
    return true;
  }

  #turn() {
    const lamp = this.#light.lights.find((one) => one.name === this.#chosen);
    return lamp.on ? 'off' : 'on';
  }

  #showLamps({ lights }) {
    const names = lights.map((lamp) => lamp.name);
    if (names.join('\n') !== [...this.#lines.keys()].join('\n')) {
      this.#lines = new Map(
        names.map((name, index) => [
          name,
          new LampLine(name, index + 1, (wish, event) => {
            this.#choose(name);
            this.#clicked(wish, event);
          }),
        ]),
      );
      this.#list.replaceChildren(...[...this.#lines.values()].map((line) => line.element));
      this.#choose(names.includes(this.#chosen) ? this.#chosen : null);
    }
    for (const lamp of lights) this.#lines.get(lamp.name).show(lamp, this.#light);
  }

  #showSteady(light, planned) {
    const keys = light.steady.map((kelvin) => ({
      wish: { do: 'steady', kelvin },
      words: `Camera stays at ${Math.round(kelvin)} K`,
    }));
    if (light.cameraStays) {
      const at = planned === null ? '' : `, ${Math.round(planned.kelvin)} K`;
      keys.push({ wish: { do: 'unsteady' }, words: `Camera as planned${at}` });
    }
    const shown = JSON.stringify(keys);
    if (shown !== this.#steady.dataset.shown) {
      this.#steady.dataset.shown = shown;
      this.#steady.replaceChildren(...keys.map(({ wish, words }) => this.#button(words, () => wish)));
    }
    for (const [index, button] of [...this.#steady.children].entries()) {
      button.setAttribute('aria-disabled', String(!canDo(light, keys[index].wish)));
    }
  }

  #button(words, wish) {
    const button = element('button', 'small');
    button.type = 'button';
    button.textContent = words;
    button.addEventListener('click', (event) => this.#clicked(wish(), event));
    return button;
  }

  /** The focus goes back after a finger or the mouse: the space bar is the step. */
  #clicked(wish, event) {
    if (event.detail > 0) event.currentTarget.blur();
    this.#wish(wish, false);
  }

  #wish(wish, held) {
    if (this.#light === null) return;
    const why = whyNot(this.#light, wish);
    put(this.#why, why);
    if (why !== '') return;
    this.dispatchEvent(new CustomEvent('light-do', { detail: { wish, held } }));
  }

  #choose(name) {
    this.#chosen = name;
    for (const [one, line] of this.#lines) line.choose(one === name);
  }
}

function help(more) {
  const details = element('details', 'help');
  const summary = element('summary', '');
  summary.textContent = 'On the keyboard';
  const list = element('dl', '');
  for (const [key, words] of HELP) {
    const term = element('dt', '');
    term.textContent = key;
    const description = element('dd', '');
    description.textContent = words;
    list.append(term, description);
  }
  if (more !== null) list.append(...more.children);
  details.append(summary, list);
  return details;
}

function fill(list, lines) {
  list.replaceChildren(
    ...lines.map((words) => {
      const item = element('li', '');
      item.textContent = words;
      return item;
    }),
  );
}

function element(kind, className) {
  const made = document.createElement(kind);
  if (className !== '') made.className = className;
  return made;
}

function put(target, words) {
  if (target.textContent !== words) target.textContent = words;
}

customElements.define('light-board', LightBoard);
