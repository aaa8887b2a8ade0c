/**
 * Metres on the floor and pixels on the plot. Pure. x to the right as the camera sees it, y away from
 * the camera; on the plot the camera is at the bottom.
 */
const MARGIN_METRES = 0.5;
const STEPS_PER_METRE = 10;
/** Above the background, for its name and the scale. */
const HEAD_PIXELS = 24;
const FOOT_PIXELS = 12;

/** @returns {{at: Function, metres: Function, perMetre: number}} [x, y] to pixels, and back */
export function floor({ room, camera, people, lights }, width, height) {
  const points = [
    ...lights.flatMap((light) => [light.position, light.aim]),
    ...people.map(({ x, y }) => [x, y]),
    [camera.x, camera.y],
    [0, room.background],
  ];
  const half = Math.max(1.5, ...points.map(([x]) => Math.abs(x))) + 2 * MARGIN_METRES;
  const near = Math.min(...points.map(([, y]) => y));
  const far = Math.max(...points.map(([, y]) => y));
  const tall = height - HEAD_PIXELS - FOOT_PIXELS;
  const perMetre = Math.min(width / (2 * half), tall / (far - near));
  const middle = (near + far) / 2;
  const centre = HEAD_PIXELS + tall / 2;
  return {
    perMetre,
    at: ([x, y]) => ({ x: width / 2 + x * perMetre, y: centre - (y - middle) * perMetre }),
    metres: ({ x, y }) => ({ x: (x - width / 2) / perMetre, y: middle + (centre - y) / perMetre }),
  };
}

/** To a tenth of a metre, within what a plan takes. */
export function snapped(metres) {
  const most = 50;
  return Math.round(Math.min(most, Math.max(-most, metres)) * STEPS_PER_METRE) / STEPS_PER_METRE + 0;
}

/** Beside a lamp where least is covered: below, above, right, left. */
export function roomFor(at, { w, h }, taken, { width, height }) {
  const offers = [
    { x: at.x - w / 2, y: at.y + 12, w, h },
    { x: at.x - w / 2, y: at.y - 12 - h, w, h },
    { x: at.x + 14, y: at.y - h / 2, w, h },
    { x: at.x - 14 - w, y: at.y - h / 2, w, h },
    { x: at.x - w / 2, y: at.y + 28, w, h },
    { x: at.x - w / 2, y: at.y - 28 - h, w, h },
  ];
  const cost = (box) => {
    const out =
      Math.max(0, -box.x, box.x + w - width) + Math.max(0, -box.y, box.y + h - height);
    return taken.reduce((sum, other) => sum + shared(box, other), out * 100);
  };
  return offers.reduce((best, offer) => (cost(offer) < cost(best) ? offer : best));
}

function shared(a, b) {
  const w = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}
