import { floor, roomFor, snapped } from './floor.js';

/**
 * The set from above, with lights to take hold of: the lamp for where it stands, the ring for what it
 * looks at. Finger, mouse, or arrow keys on what has the focus; everything lies on tenths of a metre.
 *
 * show(plot, chosen): plot as of live/plot-of.js, and the name of the chosen light or null. A light
 * without a path stays where it is. Sends 'light-moved' (detail: {name, position} or {name, aim}, each
 * [x, y, z]) when it is let go, and 'light-chosen' (detail: name).
 */
const SVG = 'http://www.w3.org/2000/svg';
const STEP_METRES = 0.1;
const FINGER_PIXELS = 22;
const NAME_PIXELS = 14;
const LETTER_PIXELS = 7.5;
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

class PlanPlot extends HTMLElement {
  #svg = node('svg', { role: 'group', 'aria-label': 'The set from above' });
  #below = node('g', {});
  #aims = node('g', {});
  #above = node('g', {});
  #words = document.createElement('p');
  #lamps = new Map();
  #plot = null;
  #chosen = null;
  #floor = null;
  #drag = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    const frame = document.createElement('div');
    frame.className = 'frame';
    this.#svg.append(this.#below, this.#aims, this.#above);
    frame.append(this.#svg);
    this.#words.className = 'says';
    this.append(frame, this.#words);
    this.#svg.addEventListener('pointermove', (event) => this.#pull(event));
    this.#svg.addEventListener('pointerup', () => this.#drop(true));
    this.#svg.addEventListener('pointercancel', () => this.#drop(false));
    this.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape' || this.#drag === null) return;
      event.preventDefault();
      event.stopPropagation();
      this.#drop(false);
    });
    new ResizeObserver(() => this.#draw()).observe(frame);
  }

  show(plot, chosen) {
    const key = JSON.stringify([plot, chosen]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#plot = structuredClone(plot);
    this.#chosen = chosen;
    const free = plot.lights.some((light) => light.path !== null);
    this.#words.textContent = free
      ? 'Drag a lamp, or the ring at which it looks. Arrow keys move by 0.1 m.'
      : 'Lights are moved on the tab Lights, or where they have a place of their own.';
    // Under the finger nothing changes.
    if (this.#drag === null) this.#draw();
  }

  #draw() {
    const { width, height } = this.#svg.getBoundingClientRect();
    if (this.#plot === null || width < 50 || height < 50) return;
    this.#svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    this.#floor = floor(this.#plot, width, height);
    this.#below.replaceChildren(...ground(this.#plot, this.#floor, width));
    const names = new Set(this.#plot.lights.map((light) => light.name));
    for (const [name, lamp] of this.#lamps) {
      if (names.has(name)) continue;
      lamp.mark.remove();
      lamp.ring.remove();
      this.#lamps.delete(name);
    }
    const taken = peopleBoxes(this.#plot, this.#floor);
    for (const light of this.#plot.lights) {
      const lamp = this.#lamps.get(light.name) ?? this.#lamp(light.name);
      lamp.mark.setAttribute('class', this.#classOf('lamp', light));
      lamp.ring.setAttribute('class', this.#classOf('aim', light));
      lamp.ring.toggleAttribute('hidden', light.path === null);
      for (const hold of [lamp.hold, lamp.ringHold]) {
        if (light.path === null) hold.removeAttribute('tabindex');
        else hold.setAttribute('tabindex', '0');
      }
      this.#put(light);
      taken.push(around(this.#floor.at(light.position), 10));
    }
    for (const light of this.#plot.lights) this.#name(light, taken, width, height);
    this.#raise();
  }

  #classOf(kind, light) {
    const on = light.on ? ' on' : '';
    const chosen = light.name === this.#chosen ? ' chosen' : '';
    return `${kind}${on}${chosen}${light.path === null ? ' fixed' : ''}`;
  }

  /** The chosen one above the others; what has the focus would lose it by that. */
  #raise() {
    const lamp = this.#lamps.get(this.#chosen);
    if (lamp === undefined || this.contains(document.activeElement)) return;
    this.#above.append(lamp.mark);
    this.#aims.append(lamp.ring);
  }

  #lamp(name) {
    const lamp = {
      mark: node('g', {}),
      shape: node('path', { d: 'M-9,-5 L0,-11 L0,11 L-9,5 z' }),
      hold: node('circle', { class: 'hold', r: FINGER_PIXELS, role: 'button' }),
      label: node('text', { 'text-anchor': 'middle' }),
      ring: node('g', {}),
      line: node('line', {}),
      circle: node('circle', { class: 'ring', r: 7 }),
      ringHold: node('circle', { class: 'hold', r: FINGER_PIXELS, role: 'button' }),
    };
    lamp.mark.append(lamp.shape, lamp.label, lamp.hold);
    lamp.ring.append(lamp.line, lamp.circle, lamp.ringHold);
    this.#above.append(lamp.mark);
    this.#aims.append(lamp.ring);
    this.#lamps.set(name, lamp);
    for (const [hold, what] of [
      [lamp.hold, 'position'],
      [lamp.ringHold, 'aim'],
    ]) {
      hold.addEventListener('pointerdown', (event) => this.#grab(event, name, what));
      hold.addEventListener('keydown', (event) => this.#key(event, name, what));
      hold.addEventListener('focus', () => {
        if (hold.matches(':focus-visible')) this.#tell('light-chosen', name);
      });
    }
    return lamp;
  }

  /** What moves with a light. */
  #put(light) {
    const lamp = this.#lamps.get(light.name);
    const at = this.#floor.at(light.position);
    const aim = this.#floor.at(light.aim);
    const turn = (Math.atan2(aim.y - at.y, aim.x - at.x) * 180) / Math.PI;
    lamp.shape.setAttribute('transform', `translate(${at.x} ${at.y}) rotate(${turn})`);
    set(lamp.hold, { cx: at.x, cy: at.y, 'aria-label': `${light.name} stands ${inWords(light.position)}` });
    set(lamp.circle, { cx: aim.x, cy: aim.y });
    set(lamp.ringHold, { cx: aim.x, cy: aim.y, 'aria-label': `${light.name} looks at ${inWords(light.aim)}` });
    set(lamp.line, { x1: at.x, y1: at.y, x2: aim.x, y2: aim.y });
  }

  #name(light, taken, width, height) {
    const { label } = this.#lamps.get(light.name);
    const words = `${light.name} ${light.position[2]} m`;
    label.textContent = words;
    const w = words.length * LETTER_PIXELS;
    const at = this.#floor.at(light.position);
    const box = roomFor(at, { w, h: 15 }, taken, { width, height });
    taken.push(box);
    set(label, { x: box.x + box.w / 2, y: box.y + 12 });
  }

  #grab(event, name, what) {
    const light = this.#light(name);
    if (event.button !== 0 || !event.isPrimary) return;
    this.#tell('light-chosen', name);
    if (light.path === null) return;
    event.preventDefault();
    event.currentTarget.focus({ focusVisible: false });
    this.#svg.setPointerCapture(event.pointerId);
    const at = this.#floor.at(light[what]);
    const finger = this.#finger(event);
    this.#drag = {
      name,
      what,
      from: light[what],
      offset: { x: at.x - finger.x, y: at.y - finger.y },
    };
    this.classList.add('held');
  }

  #pull(event) {
    if (this.#drag === null) return;
    const { name, what, offset, from } = this.#drag;
    const finger = this.#finger(event);
    const to = this.#floor.metres({ x: finger.x + offset.x, y: finger.y + offset.y });
    const light = this.#light(name);
    light[what] = [snapped(to.x), snapped(to.y), from[2]];
    this.#put(light);
    this.#sayWhere(light, what);
  }

  /** What is held says where it is. */
  #sayWhere(light, what) {
    const { label } = this.#lamps.get(light.name);
    label.textContent = inWords(light[what]);
    const half = (label.textContent.length * LETTER_PIXELS) / 2;
    const { x, y } = this.#floor.at(light[what]);
    const { width } = this.#svg.getBoundingClientRect();
    set(label, { x: Math.min(width - half, Math.max(half, x)), y: y - 16 });
  }

  #drop(counts) {
    if (this.#drag === null) return;
    const { name, what, from } = this.#drag;
    this.#drag = null;
    this.classList.remove('held');
    const light = this.#light(name);
    if (light === undefined) return;
    const to = light[what];
    if (!counts) light[what] = from;
    this.#draw();
    if (counts && (to[0] !== from[0] || to[1] !== from[1])) this.#tell('light-moved', { name, [what]: to });
  }

  #key(event, name, what) {
    const [dx, dy] = ARROWS[event.key] ?? [];
    const light = this.#light(name);
    if (dx === undefined || event.altKey || event.ctrlKey || light.path === null) return;
    event.preventDefault();
    const [x, y, z] = light[what];
    const to = [snapped(x + dx * STEP_METRES), snapped(y + dy * STEP_METRES), z];
    this.#tell('light-moved', { name, [what]: to });
  }

  #light(name) {
    return this.#plot.lights.find((light) => light.name === name);
  }

  #finger({ clientX, clientY }) {
    const box = this.#svg.getBoundingClientRect();
    return { x: clientX - box.left, y: clientY - box.top };
  }

  #tell(what, detail) {
    this.dispatchEvent(new CustomEvent(what, { detail }));
  }
}

function ground({ room, camera, upright, people }, { at, perMetre }, width) {
  const far = room.background;
  const a = at([-room.width / 2, far]);
  const b = at([room.width / 2, far - room.depth]);
  const edge = (far - camera.y) * ((upright ? 24 : 36) / 2 / camera.lens);
  const lens = at([camera.x, camera.y]);
  const [left, right] = [at([camera.x - edge, far]), at([camera.x + edge, far])];
  const metreX = Math.min(width, b.x) - perMetre - 12;
  const parts = [
    node('rect', { class: 'walls', x: a.x, y: a.y, width: b.x - a.x, height: b.y - a.y }),
    node('line', { class: 'background', x1: a.x, y1: a.y, x2: b.x, y2: a.y }),
    text('background', { class: 'quiet', x: Math.max(a.x, 0) + 8, y: a.y - 6 }),
    node('path', { class: 'scale', d: `M${metreX},${a.y - 12} v6 h${perMetre} v-6` }),
    text('1 m', { class: 'quiet', x: metreX + perMetre / 2, y: a.y - 14, 'text-anchor': 'middle' }),
    node('path', { class: 'view', d: `M${left.x},${left.y} L${lens.x},${lens.y} L${right.x},${right.y}` }),
    node('path', { class: 'camera', d: `M${lens.x - 5},${lens.y - 9} h10 v5 h5 v10 h-20 v-10 h5 z` }),
  ];
  const rx = Math.min(perMetre * 0.21, 18);
  const rows = nameRows(people, perMetre);
  // All below the nearest, or the name of one is written over the next.
  const below = Math.max(...people.map(({ x, y }) => at([x, y]).y));
  people.forEach(({ name, x, y }, i) => {
    const spot = at([x, y]);
    parts.push(
      node('ellipse', { class: 'person', cx: spot.x, cy: spot.y, rx, ry: rx * 0.55 }),
      text(name, {
        class: 'who',
        x: spot.x,
        y: below + rx * 0.55 + 13 + (i % rows) * NAME_PIXELS,
        'text-anchor': 'middle',
      }),
    );
  });
  return parts;
}

/** On how many lines names are written, so that neighbours do not run into each other. */
function nameRows(people, perMetre) {
  const xs = people.map(({ x }) => x).sort((a, b) => a - b);
  const apart = (xs.at(-1) - xs[0]) / Math.max(1, people.length - 1) || 1;
  const longest = Math.max(1, ...people.map(({ name }) => name.length));
  return Math.min(3, Math.max(1, Math.ceil((longest * LETTER_PIXELS) / (apart * perMetre))));
}

function peopleBoxes({ people }, { at, perMetre }) {
  const rx = Math.min(perMetre * 0.21, 18);
  const spots = people.map(({ x, y }) => at([x, y]));
  const below = Math.max(...spots.map(({ y }) => y));
  const h = nameRows(people, perMetre) * NAME_PIXELS;
  return spots.flatMap((spot, i) => {
    const w = people[i].name.length * LETTER_PIXELS;
    return [around(spot, rx), { x: spot.x - w / 2, y: below + rx * 0.55, w, h }];
  });
}

const around = (at, r) => ({ x: at.x - r, y: at.y - r, w: 2 * r, h: 2 * r });

function inWords([x, y, z]) {
  const side = x === 0 ? 'in the middle' : `${Math.abs(x)} m ${x < 0 ? 'left' : 'right'}`;
  const depth = y === 0 ? 'at the front row' : `${Math.abs(y)} m ${y < 0 ? 'in front' : 'behind'}`;
  return `${side}, ${depth}, ${z} m up`;
}

function text(words, attributes) {
  const one = node('text', attributes);
  one.textContent = words;
  return one;
}

function node(name, attributes) {
  return set(document.createElementNS(SVG, name), attributes);
}

function set(element, attributes) {
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

customElements.define('plan-plot', PlanPlot);
