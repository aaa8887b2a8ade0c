/**
 * How people stand: from an arrangement as the plan has it to places on the floor. Pure. The same
 * places as the server's model has, so that the plot and the picture agree.
 */

/** Shoulder to shoulder and row to row, in metres, if the plan says nothing. */
export const SPACING_METRES = 0.55;
export const ROW_METRES = 0.6;
/** Between a wing and the plane of the picture. */
const WING = Math.PI / 6;
const LOOSE = [0.45, 0, 0.8, 0.15, 0.65, 0.05, 0.9, 0.3];

/** Shapes as the desk offers them, with their words. */
export const SHAPES = new Map([
  ['line', 'line'],
  ['v near', 'V, middle nearest'],
  ['v far', 'V, middle farthest'],
  ['w', 'W'],
  ['rows', 'rows'],
  ['cluster', 'cluster'],
  ['solo', 'solo'],
]);

/**
 * @param {string|object|undefined} written as in the plan file
 * @returns {{shape: string, spacing: number|undefined, row: number|undefined, rows: number[]}}
 */
export function arrangementOf(written = 'line') {
  if (typeof written === 'object' && written !== null) {
    const { kind, apex, spacing, row, rows = [] } = written;
    return { shape: kind === 'v' ? `v ${apex}` : kind, spacing, row, rows };
  }
  const words = String(written).toLowerCase();
  if (words.startsWith('rows ')) {
    return { shape: 'rows', rows: words.slice(5).split('-').map(Number) };
  }
  const shape = { 'v towards camera': 'v near', 'v away': 'v far' }[words] ?? words;
  return { shape, rows: [] };
}

/** As the plan file has it, in the short form where that says all. */
export function writtenAs({ shape, spacing, row, rows }) {
  const extra = {};
  if (spacing !== undefined) extra.spacing = spacing;
  if (row !== undefined) extra.row = row;
  if (Object.keys(extra).length === 0) {
    if (shape === 'rows' && rows.length > 1) return `rows ${rows.join('-')}`;
    if (shape !== 'rows') return { 'v near': 'v towards camera', 'v far': 'v away' }[shape] ?? shape;
  }
  if (shape === 'rows') return { kind: 'rows', rows, ...extra };
  if (shape.startsWith('v ')) return { kind: 'v', apex: shape.slice(2), ...extra };
  return { kind: shape, ...extra };
}

/** The arrangement if so many people can stand so, else the nearest they can. */
export function fitted(arrangement, count) {
  const { shape, rows } = arrangement;
  if ((shape === 'solo' && count > 1) || (/^[vw]/.test(shape) && count < 3)) {
    return { ...arrangement, shape: count === 1 ? 'solo' : 'line' };
  }
  if (shape !== 'rows' || sum(rows) === count) return arrangement;
  if (count < 2) return { ...arrangement, shape: 'solo', rows: [], row: undefined };
  return { ...arrangement, rows: [Math.floor(count / 2), Math.ceil(count / 2)] };
}

/** @returns {{x: number, y: number}[]} a place for each, left to right; rows: the front row first */
export function places(arrangement, count) {
  const { shape, rows, spacing = SPACING_METRES, row = ROW_METRES } = fitted(arrangement, count);
  const all = shapes[shape]?.(count, spacing, row, rows) ?? line(count, spacing);
  const nearest = Math.min(...all.map((one) => one.y), Infinity);
  return all.map(({ x, y }) => ({ x, y: y - nearest }));
}

const shapes = {
  'line': (n, s) => line(n, s),
  'v near': (n, s) => wedge(n, s, true),
  'v far': (n, s) => wedge(n, s, false),
  'w': zigzag,
  'rows': (n, s, depth, rows) => inRows(s, depth, rows),
  'cluster': (n, s, depth) =>
    line(n, 0.75 * s).map(({ x }, i) => ({ x, y: depth * LOOSE[i % LOOSE.length] })),
  'solo': () => [{ x: 0, y: 0 }],
};

function line(n, s, y = 0) {
  return Array.from({ length: n }, (_, i) => ({ x: (i - (n - 1) / 2) * s, y }));
}

/** Steps from the middle: 0 for the one or two in the middle. */
const stepsOut = (i, n) => Math.floor((Math.abs(2 * i - (n - 1)) - (n % 2 === 0 ? 1 : 0)) / 2);

function wedge(n, s, apexNear) {
  const most = stepsOut(0, n);
  return Array.from({ length: n }, (_, i) => {
    const steps = stepsOut(i, n);
    const out = steps * s * Math.cos(WING) + (n % 2 === 0 ? s / 2 : 0);
    return {
      x: Math.sign(2 * i - (n - 1)) * out,
      y: s * Math.sin(WING) * (apexNear ? steps : most - steps),
    };
  });
}

function zigzag(n, s) {
  const leg = Math.max(1, Math.floor((n - 1) / 4));
  return Array.from({ length: n }, (_, i) => {
    const phase = stepsOut(i, n) % (2 * leg);
    const fromMiddle = phase <= leg ? phase : 2 * leg - phase;
    return {
      x: (i - (n - 1) / 2) * s * Math.cos(WING),
      y: s * Math.sin(WING) * (n === 3 ? fromMiddle : leg - fromMiddle),
    };
  });
}

function inRows(s, depth, rows) {
  return rows.flatMap((count, r) => {
    const even = count === rows[r - 1] || count === rows[r + 1];
    const shift = even ? (r % 2 === 0 ? -s / 4 : s / 4) : 0;
    return line(count, s, r * depth).map(({ x, y }) => ({ x: x + shift, y }));
  });
}

const sum = (numbers) => numbers.reduce((all, one) => all + one, 0);
