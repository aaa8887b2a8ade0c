import { SlotStrip, slotsWords, spanWords } from './slot-strip.js';

/**
 * The rig looked through: one light alone, or one slot; what should be seen, and what is wrong if
 * something else is.
 *
 * setRig(rig): the rig message, once. problem(words): it could not be had.
 * show(test): the part of the crew message, or null. Sends 'test-do' (detail: the wish without the
 * position: {do: 'light', light}, {do: 'slot', universe, slot}, {do: 'next'|'previous'}).
 */
class RigTest extends HTMLElement {
  #said = make('p', 'none');
  #on = make('div', 'on');
  #warnings = make('ul', 'warnings');
  #lights = make('ol', 'lights');
  #universes = make('div', 'universes');
  #single = make('form', 'single');
  #strips = new Map();
  #items = new Map();
  #test = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    const walk = make('div', 'walk');
    walk.append(
      this.#button('← Previous', 'small', { do: 'previous' }),
      this.#button('Next →', 'small', { do: 'next' }),
    );
    this.#said.textContent = 'Asking how the rig is addressed …';
    this.#said.setAttribute('role', 'status');
    this.#on.setAttribute('aria-live', 'polite');
    this.#fillSingle();
    this.#single.hidden = true;
    const rolls = make('div', 'rolls');
    rolls.append(this.#on, this.#warnings, this.#said, this.#lights, this.#single, this.#universes);
    this.append(walk, rolls);
    this.show(null);
  }

  setRig(rig) {
    this.#said.textContent = '';
    this.#warnings.replaceChildren(...rig.warnings.map((words) => make('li', '', words)));
    this.#items = new Map(rig.lights.map((light) => [light.name, this.#lightItem(light)]));
    this.#lights.replaceChildren(...[...this.#items.values()].map(({ item }) => item));
    this.#strips = new Map(rig.universes.map((one) => [one.universe, new SlotStrip(one)]));
    this.#universes.replaceChildren(
      ...rig.universes.map((one) => universePart(one, this.#strips.get(one.universe))),
    );
    this.#single.hidden = false;
    this.#mark();
  }

  problem(words) {
    this.#said.textContent = `✕ ${words}`;
  }

  show(test) {
    const key = JSON.stringify(test);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#test = test;
    this.classList.toggle('walking', test !== null);
    this.#on.replaceChildren(...(test === null ? [tapHint()] : whatIsOn(test)));
    this.#on.parentElement.scrollTop = 0;
    this.#mark();
  }

  #mark() {
    const test = this.#test;
    for (const [name, { item, key, slots }] of this.#items) {
      const tested = test !== null && test.light === name;
      item.classList.toggle('tested', tested);
      key.setAttribute('aria-pressed', String(tested && test.slot === 0));
      slots.hidden = !tested;
      for (const slot of slots.querySelectorAll('button')) {
        slot.setAttribute('aria-pressed', String(tested && Number(slot.value) === test.slot));
      }
    }
    for (const [universe, strip] of this.#strips) {
      const here = test !== null && test.universe === universe;
      strip.mark(here ? test.light : null, here && test.slot > 0 ? test.slot : null);
    }
  }

  #lightItem(light) {
    const item = make('li', '');
    const key = this.#button('', 'light', { do: 'light', light: light.name });
    const { slots } = light;
    const at =
      slots.length === 0
        ? `universe ${light.universe}`
        : `universe ${light.universe}, slots ${slotsWords(slots[0].slot, slots.at(-1).slot)}`;
    key.append(
      make('b', 'name', light.name),
      ' ',
      make('span', 'address', at),
      ' ',
      make('span', 'kind', `${light.fixture}, ${light.mode}`),
    );
    const list = make('div', 'slots-of');
    list.hidden = true;
    for (const { slot, does } of slots) {
      const one = this.#button('', 'slot', { do: 'slot', universe: light.universe, slot });
      one.value = slot;
      one.append(make('b', '', String(slot)), ` ${does}`);
      list.append(one);
    }
    item.append(key, list);
    return { item, key, slots: list };
  }

  /** Any slot, also one that is no light's: for a light that answers at an unknown address. */
  #fillSingle() {
    const field = (name, most) => {
      const label = make('label', '', `${name} `);
      const input = make('input', '');
      Object.assign(input, { type: 'number', name, min: 1, max: most, required: true, value: 1 });
      input.inputMode = 'numeric';
      label.append(input);
      return { label, input };
    };
    const universe = field('universe', 63999);
    const slot = field('slot', 512);
    const key = make('button', 'small', 'Alone');
    key.type = 'submit';
    this.#single.append(make('span', 'head', 'Any slot, also a free one:'), universe.label, slot.label, key);
    this.#single.addEventListener('submit', (event) => {
      event.preventDefault();
      const { activeElement } = document;
      if (this.contains(activeElement)) activeElement.blur();
      this.#send({
        do: 'slot',
        universe: universe.input.valueAsNumber,
        slot: slot.input.valueAsNumber,
      });
    });
  }

  #button(words, className, wish) {
    const button = make('button', className, words);
    button.type = 'button';
    button.addEventListener('click', (event) => {
      if (event.detail > 0) button.blur();
      this.#send(wish);
    });
    return button;
  }

  #send(detail) {
    this.dispatchEvent(new CustomEvent('test-do', { detail }));
  }
}

function tapHint() {
  return make('p', 'hint', 'Tap a light: it alone is on. Next goes through all lights and slots.');
}

function whatIsOn(test) {
  const parts = [make('p', 'head', test.says)];
  const expect = make('p', 'expect');
  expect.append(make('b', '', 'You should see:'), ` ${test.expect}`);
  parts.push(expect);
  if (test.others.length === 0) return parts;
  const list = make('dl', 'others');
  for (const { seen, why } of test.others) {
    list.append(make('dt', '', seen), make('dd', '', why));
  }
  parts.push(make('p', 'else', 'If you see something else:'), list);
  return parts;
}

function universePart({ universe, carriedBy, spans }, strip) {
  const part = make('section', '');
  const carried = make('p', carriedBy.length === 0 ? 'carried nobody' : 'carried');
  carried.textContent =
    carriedBy.length === 0 ? '✕ no output carries it' : `goes out by ${carriedBy.join(' and ')}`;
  const list = make('ul', 'spans');
  list.append(
    ...spans.map((span) => make('li', span.light === null ? 'free' : '', spanWords(span))),
  );
  part.append(make('h3', '', `Universe ${universe}`), carried, strip.element, list);
  return part;
}

function make(kind, className, words = '') {
  const element = document.createElement(kind);
  if (className !== '') element.className = className;
  element.textContent = words;
  return element;
}

customElements.define('rig-test', RigTest);
