import { beam, extent, fieldOfView, projection, settle } from './floor-plan.js';

const SVG = 'http://www.w3.org/2000/svg';
const COLOUR = /^#[0-9a-f]{6}$/i;
const NAME_PIXELS = 14;
const LINE_PIXELS = 17;

/**
 * The set from above. Drawn in pixels, so that words stay readable at any size.
 *
 * show(plot, framing): plot as in the crew message; framing of the present shot, or null.
 */
class RigPlot extends HTMLElement {
  #svg = node('svg', { role: 'img' });
  #rig = document.createElement('details');
  #rows = document.createElement('ul');
  #plot = null;
  #framing = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    const frame = document.createElement('div');
    frame.className = 'frame';
    frame.append(this.#svg);
    const summary = document.createElement('summary');
    summary.textContent = 'Fixtures and addresses';
    this.#rig.append(summary, this.#rows);
    this.append(frame, this.#rig);
    new ResizeObserver(() => this.#draw()).observe(frame);
  }

  show(plot, framing) {
    const key = JSON.stringify([plot, framing]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#plot = plot;
    this.#framing = framing;
    this.#rows.replaceChildren(...plot.lights.map(rigLine));
    this.#svg.setAttribute('aria-label', inWords(plot));
    this.#draw();
  }

  #draw() {
    const { width, height } = this.#svg.getBoundingClientRect();
    const plot = this.#plot;
    if (plot === null || width < 50 || height < 50) return;
    this.#svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    const area = extent(plot);
    const { place, perMetre } = projection(area, width, height);
    const far = place({ x: 0, y: plot.place.backgroundMetres }).y;
    // Nothing stands behind the background.
    const taken = [{ x: 0, y: -height, w: width, h: height + far + 3 }];
    this.#svg.replaceChildren(
      room(plot.place, place, width),
      ...plot.lights.filter((light) => light.on).flatMap((light, i) => wedge(light, i, place, perMetre)),
      view(plot, this.#framing, place),
      ...marks(plot, place, perMetre, taken),
      ...labels(plot, place, perMetre, taken, width, height),
    );
  }
}

function room(room, place, width) {
  const half = room.widthMetres / 2;
  const far = room.backgroundMetres;
  const near = far - room.depthMetres;
  const a = place({ x: -half, y: far });
  const b = place({ x: half, y: near });
  const group = node('g', { class: 'room' });
  group.append(
    node('rect', { class: 'walls', x: a.x, y: a.y, width: b.x - a.x, height: b.y - a.y }),
    node('line', { class: 'background', x1: a.x, y1: a.y, x2: b.x, y2: a.y }),
    words('background', { class: 'quiet', x: Math.max(a.x, 0) + 8, y: a.y - 8 }),
  );
  const [left, right] = [place({ x: 0, y: near }), place({ x: 1, y: near })];
  const metre = right.x - left.x;
  const x = Math.min(width, b.x) - metre - 12;
  group.append(
    node('path', { class: 'scale', d: `M${x},${a.y - 14} v6 h${metre} v-6` }),
    words('1 m', { class: 'quiet', x: x + metre / 2, y: a.y - 14, 'text-anchor': 'middle' }),
  );
  return group;
}

/** Strong at the lamp, thin where it ends: the fall of light is only hinted at. */
function wedge(light, index, place, perMetre) {
  const shape = beam(light);
  const at = place(light);
  const reach = Math.hypot(shape[1].x - light.x, shape[1].y - light.y) * perMetre;
  const id = `beam-${index}`;
  const fade = node('radialGradient', {
    id, gradientUnits: 'userSpaceOnUse', cx: at.x, cy: at.y, r: reach,
  });
  for (const [offset, opacity] of [[0, 0.75], [0.35, 0.3], [1, 0.06]]) {
    fade.append(node('stop', { offset, 'stop-color': colourOf(light), 'stop-opacity': opacity }));
  }
  const path = node('path', { class: 'beam', d: outline(shape.map(place)), fill: `url(#${id})` });
  return [fade, path];
}

function view(plot, framing, place) {
  const { camera } = plot;
  const edges = fieldOfView(camera, framing, plot.place.backgroundMetres).map(place);
  const at = place(camera);
  return node('path', {
    class: 'view',
    d: `M${edges[0].x},${edges[0].y} L${at.x},${at.y} L${edges[1].x},${edges[1].y}`,
  });
}

function marks(plot, place, perMetre, taken) {
  const camera = place(plot.camera);
  const size = Math.max(9, perMetre * 0.14);
  taken.push(around(camera, size));
  const drawn = [
    node('path', {
      class: 'camera',
      d: `M${camera.x - size * 0.5},${camera.y - size} h${size} v${size * 0.5} h${size * 0.5} v${size} h${-size * 2} v${-size} h${size * 0.5} z`,
    }),
  ];
  for (const person of plot.people) {
    const at = place(person);
    const { rx, ry } = shoulders(perMetre);
    taken.push({ x: at.x - rx, y: at.y - ry, w: 2 * rx, h: 2 * ry });
    drawn.push(node('ellipse', { class: 'person', cx: at.x, cy: at.y, rx, ry }));
  }
  for (const light of plot.lights) {
    const at = place(light);
    taken.push(around(at, 11));
    drawn.push(lamp(light, at, place({ x: light.aimX, y: light.aimY })));
  }
  return drawn;
}

/** A short bar square to its beam, as a lamp face is seen from above; hollow when it is off. */
function lamp(light, at, aim) {
  const turn = (Math.atan2(aim.y - at.y, aim.x - at.x) * 180) / Math.PI;
  const mark = node('path', {
    class: light.on ? 'lamp on' : 'lamp',
    d: 'M-9,-5 L0,-11 L0,11 L-9,5 z',
    transform: `translate(${at.x} ${at.y}) rotate(${turn})`,
  });
  if (light.on) mark.setAttribute('fill', colourOf(light));
  const title = node('title', {});
  title.textContent = `${light.name}: ${light.fixture}, ${light.address}, ${light.z} m up`;
  mark.append(title);
  return mark;
}

function labels(plot, place, perMetre, taken, width, height) {
  const drawn = [];
  const put = (className, offers, lines) => {
    const box = settle(offers, taken, width, height);
    taken.push(box);
    const text = node('text', { class: className, 'text-anchor': box.anchor });
    lines.forEach((line, i) => {
      const x = box.anchor === 'middle' ? box.x + box.w / 2 : box.anchor === 'end' ? box.x + box.w : box.x;
      const span = node('tspan', { class: line.class, x, y: box.y + NAME_PIXELS - 1 + i * LINE_PIXELS });
      span.textContent = line.words;
      text.append(span);
    });
    drawn.push(text);
    return { text, box };
  };
  for (const person of plot.people) {
    const at = place(person);
    const w = breadth(person.name, 0.6);
    const offer = (dx, dy) => ({
      x: at.x - w / 2 + dx, y: at.y + dy, w, h: LINE_PIXELS, anchor: 'middle',
    });
    const gap = shoulders(perMetre).ry + 2;
    const offers = [];
    for (const row of [0, 1, 2]) {
      offers.push(offer(0, gap + row * LINE_PIXELS), offer(0, -gap - (row + 1) * LINE_PIXELS));
    }
    put('who', offers, [{ class: 'name', words: person.name }]);
  }
  for (const light of plot.lights) {
    const at = place(light);
    const w = Math.max(breadth(light.name, 0.66), breadth(light.says, 0.58));
    const { text, box } = put(
      light.on ? 'light on' : 'light',
      lightOffers(at, w, LINE_PIXELS * 2),
      [
        { class: 'name', words: light.name },
        { class: 'says', words: light.says },
      ],
    );
    const title = node('title', {});
    title.textContent = `${light.fixture}, ${light.address}, ${light.z} m up`;
    text.append(title);
    if (box.leads) drawn.push(leader(at, box));
  }
  return drawn;
}

/** From a lamp to its words, where they stand further off. */
function leader(at, box) {
  const x = Math.min(Math.max(at.x, box.x + 4), box.x + box.w - 4);
  const y = box.y > at.y ? box.y : box.y + box.h;
  return node('line', { class: 'leader', x1: at.x, y1: at.y, x2: x, y2: y });
}

/** Close to the lamp first; where people stand close by, a few lines further off. */
function lightOffers(at, w, h) {
  const close = [
    { x: at.x - w / 2, y: at.y + 14, w, h, anchor: 'middle' },
    { x: at.x - w / 2, y: at.y - 14 - h, w, h, anchor: 'middle' },
    { x: at.x + 18, y: at.y - h / 2, w, h, anchor: 'start' },
    { x: at.x - 20 - w, y: at.y - h / 2, w, h, anchor: 'end' },
    { x: at.x - 14, y: at.y + 14, w, h, anchor: 'start' },
    { x: at.x + 14 - w, y: at.y + 14, w, h, anchor: 'end' },
    { x: at.x - 14, y: at.y - 14 - h, w, h, anchor: 'start' },
    { x: at.x + 14 - w, y: at.y - 14 - h, w, h, anchor: 'end' },
    { x: at.x + 16, y: at.y + 8, w, h, anchor: 'start' },
    { x: at.x - 16 - w, y: at.y + 8, w, h, anchor: 'end' },
  ];
  const further = [1, 2, 3, 4, 5].flatMap((lines) =>
    close.map((offer) => {
      const away = offer.y + h / 2 < at.y ? -1 : 1;
      return { ...offer, y: offer.y + away * lines * LINE_PIXELS, leads: true };
    }),
  );
  return [...close, ...further];
}

function rigLine(light) {
  const item = document.createElement('li');
  const name = document.createElement('b');
  name.textContent = light.name;
  item.append(name, ` ${light.fixture}, ${light.address}, ${light.z} m up`);
  return item;
}

function inWords(plot) {
  const lights = plot.lights.map((light) => `${light.name} ${light.says}`).join('; ');
  const people = plot.people.map((person) => person.name).join(', ');
  return `The set from above. People, left to right: ${people}. Lights: ${lights}.`;
}

/** Half the breadth and depth of a person from above, in pixels. */
function shoulders(perMetre) {
  const rx = Math.min(perMetre * 0.21, 20);
  return { rx, ry: rx * 0.55 };
}

const colourOf = (light) => (COLOUR.test(light.colour) ? light.colour : '#ffffff');
const breadth = (text, share) => text.length * NAME_PIXELS * share;
const around = (at, r) => ({ x: at.x - r, y: at.y - r, w: 2 * r, h: 2 * r });
const outline = (points) => `M${points.map((p) => `${p.x},${p.y}`).join(' L')} z`;

function words(text, attributes) {
  const element = node('text', attributes);
  element.textContent = text;
  return element;
}

function node(name, attributes) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

customElements.define('rig-plot', RigPlot);
