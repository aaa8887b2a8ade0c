import { nearest, standing } from './standing.js';

const SVG = 'http://www.w3.org/2000/svg';
const GAP = 10;

/**
 * How people stand for a shot: from above with their names, and as the camera sees them, with the
 * wanted format, the fold and the side where text goes. Readable from two metres.
 *
 * show(direction, shot): of the crew message, either null for none. The drawing takes the room that
 * the page gives; with the attribute `ink` it lies on tape.
 */
class ShotDirections extends HTMLElement {
  #caption = document.createElement('p');
  #frame = document.createElement('div');
  #svg = node('svg', { role: 'img' });
  #direction = null;
  #shot = null;
  #measure = document.createElement('canvas').getContext('2d');

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#caption.className = 'caption';
    this.#frame.className = 'frame';
    this.#frame.append(this.#svg);
    this.append(this.#caption, this.#frame);
    this.hidden = true;
    new ResizeObserver(() => this.#draw()).observe(this.#frame);
  }

  show(direction, shot) {
    const none = direction === null || shot === null || direction.above.length === 0;
    this.hidden = none;
    if (none) return;
    const key = JSON.stringify([direction, shot.name, shot.arrangement, shot.framing, shot.say]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#direction = direction;
    this.#shot = shot;
    this.#caption.textContent = direction.above.length === 1 ? '' : captionOf(direction, shot);
    this.#svg.setAttribute('aria-label', inWords(direction, shot));
    this.#draw();
  }

  #draw() {
    const { width, height } = this.#frame.getBoundingClientRect();
    if (this.#direction === null || width < 60 || height < 40) return;
    this.#svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    const { above, camera, people } = this.#best(width, height);
    this.#svg.replaceChildren(
      ...fromAbove(this.#direction, people, above),
      ...fromCamera(this.#direction, camera, (words, size) => this.#breadth(words, size)),
    );
  }

  /** Beside each other, or the picture below: whichever gives the larger names. */
  #best(width, height) {
    const aspect = /portrait|upright|cover/i.test(this.#shot.framing) ? 2 / 3 : 3 / 2;
    const beside = pictureWithin(width * 0.42, height, aspect);
    const under = pictureWithin(width, height * 0.5, aspect);
    const ways = [
      {
        above: { x: 0, y: 0, w: width - beside.w - GAP, h: height },
        camera: { x: width - beside.w, y: (height - beside.h) / 2, ...beside },
      },
      {
        above: { x: 0, y: 0, w: width, h: height - under.h - GAP },
        camera: { x: (width - under.w) / 2, y: height - under.h, ...under },
      },
    ].map((way) => ({
      ...way,
      people: standing(this.#direction.above, roomFor(way.above), (words, size) =>
        this.#breadth(words, size),
      ),
    }));
    const [a, b] = ways;
    return b.people.fits && b.people.size > a.people.size && b.camera.h > 60 ? b : a;
  }

  #breadth(words, size) {
    this.#measure.font = `800 ${size}px ${getComputedStyle(this.#svg).fontFamily}`;
    return this.#measure.measureText(words).width;
  }
}

/** At the bottom there is the camera. */
const CAMERA_PIXELS = 16;
const roomFor = ({ x, y, w, h }) => ({ x, y, w, h: h - CAMERA_PIXELS });

function pictureWithin(width, height, aspect) {
  const w = Math.min(width, height * aspect);
  return { w, h: w / aspect };
}

function fromAbove({ above, sharp, focusY }, { dots, size, radius, depth }, area) {
  const near = nearest(above);
  const drawn = [];
  const clip = (y) => Math.min(Math.max(y, area.y), area.y + area.h - CAMERA_PIXELS);
  if (sharp !== null && sharp !== undefined) {
    const [top, bottom] = [clip(depth(sharp.farY)), clip(depth(sharp.nearY))];
    // Where all of it is sharp there is nothing to see.
    const ends = top > area.y || bottom < area.y + area.h - CAMERA_PIXELS;
    if (bottom - top > 2 && ends) {
      const band = { class: 'sharp', x: area.x, y: top, width: area.w, height: bottom - top };
      drawn.push(node('rect', band));
      const y = clip(depth(focusY));
      drawn.push(node('line', { class: 'focus', x1: area.x, x2: area.x + area.w, y1: y, y2: y }));
    }
  }
  const along = dots.map(({ x, y }) => `${x},${y}`).join(' ');
  drawn.push(node('polyline', { class: 'shape', points: along }));
  for (const dot of dots) {
    const person = above.find(({ name }) => name === dot.name);
    const soft = sharp && (person.y < sharp.nearY - 0.001 || person.y > sharp.farY + 0.001);
    const kind = ['dot', near.includes(dot.name) ? 'near' : '', soft ? 'soft' : ''];
    drawn.push(
      node('circle', {
        class: kind.filter((one) => one !== '').join(' '),
        cx: dot.x,
        cy: dot.y,
        r: radius,
      }),
    );
  }
  for (const dot of dots) {
    const className = near.includes(dot.name) ? 'name near' : 'name';
    const at = { class: className, x: dot.label.x, y: dot.label.y, 'font-size': size };
    drawn.push(words(dot.name, at));
  }
  const x = area.x + area.w / 2;
  const lowest = Math.max(...dots.map((dot) => Math.max(dot.y + radius, dot.label.y)));
  const y = Math.min(area.y + area.h, lowest + CAMERA_PIXELS + size * 0.35);
  drawn.push(
    node('path', { class: 'camera', d: `M${x - 4},${y - 13} h8 v4 h5 v9 h-18 v-9 h5 z` }),
  );
  return drawn;
}

function fromCamera({ fromCamera: people, crop, fold, text }, whole, breadth) {
  // Room for the lines around it.
  const box = { x: whole.x + 2, y: whole.y + 2, w: whole.w - 4, h: whole.h - 4 };
  const px = (share) => box.x + share * box.w;
  const py = (share) => box.y + share * box.h;
  const drawn = [node('rect', { class: 'picture', x: box.x, y: box.y, width: box.w, height: box.h })];
  people.forEach((one, index) => {
    drawn.push(...figure(one, px, py, box, index === people.length - 1));
  });
  const left = px(crop.left);
  const right = px(crop.right);
  const top = py(crop.top);
  const bottom = py(crop.bottom);
  const around = `M${box.x},${box.y} h${box.w} v${box.h} h${-box.w} z`;
  drawn.push(
    node('path', {
      class: 'outside',
      'fill-rule': 'evenodd',
      d: `${around} M${left},${top} V${bottom} H${right} V${top} z`,
    }),
  );
  if (text !== '') drawn.push(...textSide(text, { left, right, top, bottom }, breadth));
  if (fold !== null) {
    const x = px(fold);
    drawn.push(node('line', { class: 'fold', x1: x, y1: top, x2: x, y2: bottom }));
    drawn.push(words('fold', { class: 'quiet', x, y: bottom - 4, 'font-size': 12 }));
  }
  drawn.push(
    node('rect', { class: 'crop', x: left, y: top, width: right - left, height: bottom - top }),
  );
  return drawn;
}

/** Head and body; the body is cut where the picture ends. */
function figure({ name, left, right, top, bottom, face }, px, py, box, last) {
  const r = Math.max(face.r * box.w, 2.5);
  const [cx, cy] = [px(face.x), py(face.y)];
  const l = Math.max(px(left), box.x);
  const w = Math.min(px(right), box.x + box.w) - l;
  const neck = Math.max(cy + r * 1.1, py(top));
  const foot = Math.min(py(Math.min(bottom, 1)), box.y + box.h);
  if (w <= 0 || foot <= neck) return [];
  const round = Math.min(w * 0.35, (foot - neck) / 2);
  const body = node('path', {
    class: last ? 'body near' : 'body',
    d: `M${l},${foot} V${neck + round} Q${l},${neck} ${l + round},${neck} H${l + w - round} Q${l + w},${neck} ${l + w},${neck + round} V${foot} z`,
  });
  const title = node('title', {});
  title.textContent = name;
  body.append(title);
  return [body, node('circle', { class: last ? 'face near' : 'face', cx, cy, r })];
}

function textSide(side, { left, right, top, bottom }, breadth) {
  const [w, h] = [right - left, bottom - top];
  const part = 0.22;
  const box = {
    top: { x: left, y: top, width: w, height: h * part },
    bottom: { x: left, y: bottom - h * part, width: w, height: h * part },
    left: { x: left, y: top, width: w * part, height: h },
    right: { x: right - w * part, y: top, width: w * part, height: h },
  }[side];
  if (box === undefined) return [];
  const drawn = [node('rect', { class: 'text-side', ...box })];
  const size = Math.min(14, box.height * 0.8);
  if (breadth('text', size) < box.width && size >= 9) {
    const x = box.x + box.width / 2;
    const y = box.y + box.height / 2 + size * 0.35;
    drawn.push(words('text', { class: 'quiet', x, y, 'font-size': size }));
  }
  return drawn;
}

const POINTS = { near: 'the point to the camera', far: 'the point away from the camera' };

function captionOf({ above, apex }, { arrangement }) {
  const said = [arrangement];
  const point = /nearest|farthest/.test(arrangement) ? undefined : POINTS[apex];
  if (point !== undefined) said.push(point);
  const near = nearest(above);
  if (near.length > 0 && near.length <= 2) said.push(`${near.join(' and ')} in front`);
  return said.join(', ');
}

function inWords(direction, shot) {
  const { above, fold, text } = direction;
  const said = [`From left to right: ${above.map(({ name }) => name).join(', ')}.`];
  said.push(`${captionOf(direction, shot)}.`);
  if (fold !== null) said.push('A fold goes through the picture.');
  if (text !== '') said.push(`Text goes to the ${text}.`);
  return said.join(' ');
}

function words(text, attributes) {
  const element = node('text', { 'text-anchor': 'middle', ...attributes });
  element.textContent = text;
  return element;
}

function node(name, attributes) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

customElements.define('shot-directions', ShotDirections);
