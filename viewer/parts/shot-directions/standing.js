/**
 * Where the people and their names come to lie on the drawing of an arrangement. Pure, in pixels.
 */

const MOST_PIXELS = 40;
const LEAST_PIXELS = 11;
/** Depth is drawn up to this much larger than breadth: the shape must be seen at a glance. */
const DEEPER_MOST = 1.7;
/** Least depth of the drawn shape, in heights of a name. */
const SHAPE_SHARE = 0.9;
/** Somebody this much further away than the nearest still counts as nearest. */
const LEVEL_METRES = 0.05;

/** Names of those nearest to the camera; none if all are. */
export function nearest(people) {
  const least = Math.min(...people.map(({ y }) => y));
  const names = people.filter(({ y }) => y - least <= LEVEL_METRES).map(({ name }) => name);
  return names.length === people.length ? [] : names;
}

/**
 * Places a dot for each and its name by it, the names as large as they fit beside each other.
 *
 * @param {{name: string, x: number, y: number}[]} people metres, y away from the camera
 * @param {{x: number, y: number, w: number, h: number}} room
 * @param {(words: string, size: number) => number} breadth of words, pixels
 * @returns {{size: number, radius: number, dots: {name, x, y, label: {x, y}}[],
 *     depth: (y: number) => number}}
 */
export function standing(people, room, breadth) {
  const below = largest(people, room, breadth, ['below']);
  const either = largest(people, room, breadth, ['below', 'above']);
  // Names that all stand on the same side are read quicker than larger ones that do not.
  return below.fits && below.size >= either.size * 0.8 ? below : either;
}

function largest(people, room, breadth, sides) {
  let last = null;
  for (let size = MOST_PIXELS; size >= LEAST_PIXELS; size -= 1) {
    last = place(people, room, breadth, size, sides);
    if (last.fits) return last;
  }
  return last;
}

function place(people, room, breadth, size, sides) {
  const radius = Math.max(5, size * 0.36);
  const xs = people.map(({ x }) => x);
  const ys = people.map(({ y }) => y);
  const wide = Math.max(...xs) - Math.min(...xs);
  const deep = Math.max(...ys) - Math.min(...ys);
  const ends = people.map(({ name }) => breadth(name, size) / 2);
  const side = Math.max(radius, ...ends) + 2;
  const above = radius + 2;
  const below = radius + size * 1.1 + 2;
  const across = wide === 0 ? Infinity : (room.w - 2 * side) / wide;
  const down = deep === 0 ? Infinity : (room.h - above - below) / deep;
  const perDepth = deep === 0 ? 0 : Math.min(down, across === Infinity ? down : across * DEEPER_MOST);
  const perBreadth = wide === 0 ? 0 : across;
  const middleX = (Math.max(...xs) + Math.min(...xs)) / 2;
  const lowest = Math.min(...ys);
  const drawn = above + below + deep * perDepth;
  const bottom = room.y + room.h - Math.max(0, (room.h - drawn) / 2) - below;
  const depth = (y) => bottom - (y - lowest) * perDepth;
  const dots = people.map(({ name, x, y }) => ({
    name,
    x: room.x + room.w / 2 + (x - middleX) * perBreadth,
    y: depth(y),
  }));
  const taken = dots.map((dot) => ({ ...around(dot, radius), of: dot.name }));
  // A shape that is pressed flat says nothing.
  const flat = deep > LEVEL_METRES && deep * perDepth < size * SHAPE_SHARE;
  let fits = across > 0 && down >= 0 && drawn <= room.h + 1 && !flat;
  for (const dot of [...dots].sort((a, b) => b.y - a.y)) {
    const w = breadth(dot.name, size);
    const tops = { below: dot.y + radius + 1, above: dot.y - radius - 1 - size };
    const offers = sides.map((side) => {
      return { x: dot.x - w / 2, y: tops[side], w, h: size, of: dot.name };
    });
    const good = offers.find((one) => inside(one, room) && !taken.some((box) => meets(one, box)));
    if (good === undefined) fits = false;
    const box = good ?? offers[0];
    taken.push(box);
    dot.label = { x: dot.x, y: box.y + size * 0.82 };
  }
  return { fits, size, radius, dots, depth };
}

const around = ({ x, y }, r) => ({ x: x - r, y: y - r, w: 2 * r, h: 2 * r });

function inside(box, room) {
  return (
    box.x >= room.x - 1 &&
    box.x + box.w <= room.x + room.w + 1 &&
    box.y >= room.y - 1 &&
    box.y + box.h <= room.y + room.h + 1
  );
}

/** A little air between two names, or they read as one. */
const AIR = 5;

function meets(a, b) {
  const air = a.of === b.of ? 0 : AIR;
  const w = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return w > -air && h > 0 && a.of !== b.of;
}
