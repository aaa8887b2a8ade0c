import { minutesSeconds } from './time.js';

/** Stretches of time in words. Pure. */

/** '30 s', '90 s', '2 min'. */
export function spanWords(seconds) {
  return seconds >= 60 && seconds % 60 === 0 ? `${seconds / 60} min` : `${Math.round(seconds)} s`;
}

/** What the clock will show when a shot begins; '' for one that has begun. */
export function startWords(leftSeconds, startsInSeconds) {
  if (startsInSeconds === null || startsInSeconds <= 0) return '';
  const then = leftSeconds - startsInSeconds;
  return then > 0 ? minutesSeconds(then) : '';
}
