import { places, SHAPES } from '../../live/standing.js';
import { SwitchField } from './fields.js';

const SVG = 'http://www.w3.org/2000/svg';
/** People on the keys, the camera below them. */
const DRAWN = { rows: [2, 3], solo: 1 };
const PIXELS_PER_METRE = 15;

/** How people stand: a key for each shape, with it drawn as the plot has it. */
export class ShapeField extends SwitchField {
  constructor(send) {
    super('How they stand', send, [...SHAPES]);
    this.element.classList.add('shapes');
    for (const key of this.keys) key.prepend(drawing(key.value));
  }
}

function drawing(shape) {
  const rows = shape === 'rows' ? DRAWN.rows : [];
  const count = DRAWN[shape] === 1 ? 1 : 5;
  const spots = places({ shape, rows, spacing: 0.62, row: 0.7 }, count);
  const far = Math.max(...spots.map((one) => one.y));
  const svg = node('svg', { viewBox: '0 0 52 40', width: 52, height: 40, 'aria-hidden': 'true' });
  for (const { x, y } of spots) {
    const cy = 12 + (far / 2 - y) * PIXELS_PER_METRE;
    svg.append(node('ellipse', { cx: 26 + x * PIXELS_PER_METRE, cy, rx: 3.6, ry: 2.6 }));
  }
  svg.append(node('path', { class: 'lens', d: 'M22,38 h8 v-4 h-2 v-3 h-4 v3 h-2 z' }));
  return svg;
}

function node(name, attributes) {
  const one = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) one.setAttribute(key, value);
  return one;
}
