/**
 * Values one after the other as cameras have them in thirds of a stop, rounded as engraved (common
 * practice), and other steps. Pure. A value between two steps goes to the next one that way.
 */
const F_NUMBERS = [
  1, 1.1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10, 11, 13,
  14, 16, 18, 20, 22, 25, 29, 32,
];
const FRACTIONS = [
  8000, 6400, 5000, 4000, 3200, 2500, 2000, 1600, 1250, 1000, 800, 640, 500, 400, 320, 250, 200, 160,
  125, 100, 80, 60, 50, 40, 30, 25, 20, 15, 13, 10, 8, 6, 5, 4, 3,
];
const LONG_SECONDS = [0.4, 0.5, 0.6, 0.8, 1, 1.3, 1.6, 2, 2.5, 3.2, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30];
const ISOS = [
  50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200,
  4000, 5000, 6400, 8000, 10000, 12800, 16000, 20000, 25600, 32000, 40000, 51200, 64000, 80000, 102400,
  128000, 160000, 204800,
];
const LENSES = [14, 16, 20, 24, 28, 35, 40, 50, 70, 85, 105, 135, 200, 300];
const TIMES = [...FRACTIONS.map((n) => `1/${n}`), ...LONG_SECONDS];
/** Colour temperatures of a plan, in mired (a million by kelvin): 20000 K to 1700 K. */
export const MIRED_LEAST = 50;
export const MIRED_MOST = 585;
export const MIRED_STEP = 5;

export const nextFNumber = (value, way) => along(F_NUMBERS, value, way);
export const nextIso = (value, way) => along(ISOS, value, way);
export const nextLens = (value, way) => along(LENSES, value, way);

/** Times as in a plan, '1/100' or seconds; up is longer. */
export function nextTime(value, way) {
  const all = TIMES.map(secondsOf);
  const next = along(all, secondsOf(value), way);
  return TIMES[all.indexOf(next)] ?? value;
}

/** @param {string|number} time '1/100', 0.5 */
export function secondsOf(time) {
  const [over, under] = String(time).split('/');
  return under === undefined ? Number(over) : Number(over) / Number(under);
}

/** A third of a stop more or less of percent or lux, with three digits that count. */
export function nextShare(value, way, most = Infinity) {
  return Math.min(most, Number((value * 2 ** (way / 3)).toPrecision(3)));
}

/** Thirds of a stop: 0, 0.3, 0.7, 1 ... */
export function nextStops(value, way) {
  const thirds = value * 3;
  const near = Math.round(thirds);
  const on = Math.abs(thirds - near) < 0.15;
  const next = on ? near + way : way > 0 ? Math.ceil(thirds) : Math.floor(thirds);
  return tenth(Math.min(15, Math.max(-30, next)) / 3);
}

export const kelvinOf = (mired) => Math.round(1e6 / mired / 10) * 10;
export const miredOf = (kelvin) =>
  Math.min(MIRED_MOST, Math.max(MIRED_LEAST, Math.round(1e6 / kelvin / MIRED_STEP) * MIRED_STEP));

/** One step of mired; up is a higher colour temperature. */
export function nextKelvin(kelvin, way) {
  const exact = 1e6 / kelvin / MIRED_STEP;
  const near = Math.round(exact);
  // Kelvin are rounded, so a step may lie a hair beside its mired.
  const on = Math.abs(exact - near) < 0.25;
  const next = on ? near - way : way > 0 ? Math.floor(exact) : Math.ceil(exact);
  return kelvinOf(Math.min(MIRED_MOST, Math.max(MIRED_LEAST, next * MIRED_STEP)));
}

/** @param {number} step such as 0.1; returns a function as the others here */
export function by(step, least, most) {
  return (value, way) => {
    const steps = value / step;
    const near = Math.round(steps);
    const on = Math.abs(steps - near) < 1e-6;
    const next = on ? near + way : way > 0 ? Math.ceil(steps) : Math.floor(steps);
    return Math.min(most, Math.max(least, Number((next * step).toFixed(3))));
  };
}

export const tenth = (value) => Math.round(value * 10) / 10 + 0;

function along(values, value, way) {
  const further = way > 0 ? values.find((one) => one > value * 1.0001) : values.findLast((one) => one < value * 0.9999);
  return further ?? (way > 0 ? values.at(-1) : values[0]);
}
