/**
 * From metres on the set to pixels on the plot, and back-of-envelope optics for it. Pure.
 *
 * The set: x to the right as the camera sees it, y away from the camera, origin under the middle of
 * the nearest row. The plot: the camera at the bottom, the background at the top.
 */

/** Sides of a full-frame sensor, 36 mm by 24 mm. */
const SENSOR_LONG_MILLIMETRES = 36;
const SENSOR_SHORT_MILLIMETRES = 24;
const MARGIN_METRES = 0.55;

/** The part of the floor that matters: everything that stands there, and the background. */
export function extent(plot) {
  const things = [...plot.people, ...plot.lights, plot.camera];
  const xs = things.map((thing) => thing.x);
  const ys = [...things.map((thing) => thing.y), plot.place.backgroundMetres];
  const halfWidth = Math.max(...xs.map(Math.abs), 1.5) + 2 * MARGIN_METRES;
  return {
    left: -halfWidth,
    right: halfWidth,
    near: Math.min(...ys) - MARGIN_METRES,
    far: Math.max(...ys) + MARGIN_METRES,
  };
}

/** @returns a function from {x, y} in metres to {x, y} in pixels, and pixels per metre beside it */
export function projection(area, widthPixels, heightPixels) {
  const perMetre = Math.min(
    widthPixels / (area.right - area.left),
    heightPixels / (area.far - area.near),
  );
  const middleX = (area.left + area.right) / 2;
  const middleY = (area.near + area.far) / 2;
  const place = ({ x, y }) => ({
    x: widthPixels / 2 + (x - middleX) * perMetre,
    y: heightPixels / 2 - (y - middleY) * perMetre,
  });
  return { place, perMetre };
}

/** Two edges of what the lens sees, as points at the distance of `y`, from a camera that looks along +y. */
export function fieldOfView(camera, framing, y) {
  const across = /portrait|upright|cover/i.test(framing ?? '')
    ? SENSOR_SHORT_MILLIMETRES
    : SENSOR_LONG_MILLIMETRES;
  const half = ((y - camera.y) * across) / 2 / camera.lensMillimetres;
  return [
    { x: camera.x - half, y },
    { x: camera.x + half, y },
  ];
}

/** The light's cone on the floor plan: its apex, then points on an arc, all in metres. */
export function beam(light) {
  const dx = light.aimX - light.x;
  const dy = light.aimY - light.y;
  const reach = Math.max(Math.hypot(dx, dy) * 1.15, 1.2);
  const middle = dx === 0 && dy === 0 ? -Math.PI / 2 : Math.atan2(dy, dx);
  const half = (Math.min(light.beamDegrees, 170) * Math.PI) / 360;
  const arc = Array.from({ length: 17 }, (_, i) => middle - half + (half * i) / 8);
  return [
    { x: light.x, y: light.y },
    ...arc.map((a) => ({ x: light.x + reach * Math.cos(a), y: light.y + reach * Math.sin(a) })),
  ];
}

/**
 * Places one label: the first of the offers that is inside the plot and touches nothing placed
 * before, else the one that overlaps least.
 *
 * @param {{x: number, y: number, w: number, h: number}[]} offers in the order of liking
 * @param {object[]} taken boxes that are there already
 */
export function settle(offers, taken, width, height) {
  const cost = (box) => {
    const out =
      Math.max(0, -box.x) +
      Math.max(0, -box.y) +
      Math.max(0, box.x + box.w - width) +
      Math.max(0, box.y + box.h - height);
    return taken.reduce((sum, other) => sum + shared(box, other), out * 100);
  };
  let best = offers[0];
  let least = Infinity;
  for (const offer of offers) {
    const c = cost(offer);
    if (c < least) {
      least = c;
      best = offer;
    }
    if (c === 0) break;
  }
  return best;
}

function shared(a, b) {
  const w = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}
