import { sampleName } from './sample.js';

/**
 * What a page asks of the server. Each asks once and throws NotDelivered if there was no good answer;
 * the answer is a crew message, or null when the server sent none.
 */
const ANSWER_LIMIT_MILLIS = 4000;
/** A plan is written to disk and read again before it is answered. */
const PLAN_LIMIT_MILLIS = 10_000;
const LATE = 'No answer from the computer. Look at the light; if it did not change, press again.';
const LATE_PLAN = 'No answer from the computer. Look at the plan; if it did not change, once more.';
const SUGGEST_LIMIT_MILLIS = 30_000;
const LATE_SUGGEST = 'No suggestions came. Ask again.';
const PLAN = { limitMillis: PLAN_LIMIT_MILLIS, late: LATE_PLAN };

/** Why something did not reach the shoot, in words for the person at the key. */
export class NotDelivered extends Error {}

/** Next look. `at` is the position the person saw: the server takes it once, however often it comes. */
export const step = (at) => post('/step', { at });

/** One back. */
export const back = (at) => post('/back', { at });

/** @param {'start'|'pause'} what */
export const clock = (what) => post('/clock', { do: what });

/** The simulated camera takes a picture. */
export const shutter = () => post('/shutter', {});

/** To another shot: `to` is its place in the running order, from 1. */
export const jump = (at, to) => post('/jump', { at, to });

/** To a shot that is left out of the running order, by its id. */
export const jumpToShot = (at, shot) => post('/jump', { at, shot });

/**
 * A running order for the time that is left.
 *
 * @param {{seconds: number}|{seconds: null}|{back: true}} wish so many seconds, the best order for
 *     what the clock has left, or the order before the last re-cut
 */
export const cut = (at, wish) => post('/cut', { at, ...wish });

/** Solos on the look that is on, as the next shots. @param {string[]} people none: all who lack one */
export const solos = (at, people = []) =>
  post('/solos', people.length === 0 ? { at } : { at, people });

/**
 * @param {{open: {client: string, promised: string[], note: string, shots: string[]}}
 *     |{switch: string}} wish a new job, or for whom the next frames are
 */
export const job = (wish) => post('/job', wish);

/** To another place, by its name. */
export const place = (to) => post('/place', { to });

/** What a check says is wrong is mended in the plan. */
export const mend = (id) => post('/mend', { id }, PLAN);

/** The same shot once more. */
export const again = (at) => post('/again', { at });

/** @param {{do: string, light?: string, kelvin?: number}} wish as in lighting.js */
export const light = (at, wish) => post('/light', { at, ...wish });

/** @param {{do: string, light?: string, universe?: number, slot?: number}} wish */
export const test = (at, wish) => post('/test', { at, ...wish });

/**
 * Plates: frames with each light alone.
 *
 * @param {{do: 'begin', standIn: boolean}|{do: 'again', id: string, step: number}
 *     |{do: 'use'|'give up'|'nothing moved'|'forget', id: string}} wish
 */
export const plates = (wish) => post('/plates', wish);

/** Whether everybody was told of the flashing that the plan allows. */
export const flashing = (acknowledged) => post('/flashing', { acknowledged });

/** @param {{number: number, do: 'keep'|'out'|'unmark'|'belongs', shot?: string}} wish of a frame */
export const frame = (wish) => post('/frame', wish);

/** @param {'all'|'kept'|'hold'} what the band gets to see */
export const show = (what) => post('/show', { show: what });

/** Every frame of the shoot, the newest first. @returns {Promise<object[]>} */
export const allFrames = () =>
  sampleName === null ? ask('/all-frames', {}) : Promise.resolve([]);

/** How the rig is addressed. */
export const rig = () => ask(sampleName === null ? '/rig' : '/samples/rig.json', {});

/** The plan as it is written, what can be undone, and what may stand in it. */
export const plan = () => ask(sampleName === null ? '/plan' : '/samples/plan.json', {}, PLAN);

/**
 * All of the edits or none. @returns {Promise<object|null>} the plan afterwards, as of plan()
 *
 * @param {{edits: object[], says: string}|{undo: true}|{redo: true}} wish edits as in document.js
 */
export const editPlan = (wish) => post('/plan', wish, PLAN);

/** Where the sliders begin: the look that is on, and how far each light goes. */
export const mixStart = () => ask(sampleName === null ? '/mix' : '/samples/mix.json', {});

/**
 * What a mix looks like. @returns {Promise<{url: string, plates: boolean}>} the url is the caller's to
 * revoke
 */
export async function mixPicture(mix) {
  if (sampleName !== null) return { url: '/samples/prediction.svg', plates: false };
  const { answer, body } = await send('/mix', posted(mix), {});
  if (!answer.ok) throw new NotDelivered(refusal(answer.status, await jsonOf(answer, body)));
  const plates = answer.headers.get('X-Lookstep-From') === 'plates';
  return { url: URL.createObjectURL(body), plates };
}

/** What is counted in a mix, in words. @returns {Promise<{says: string[]}>} */
export const countMix = (mix) =>
  sampleName === null ? post('/mix/counted', mix) : Promise.resolve({ says: [] });

/** A mix becomes a look of the plan, and a shot in it. @param {object} mix with a name */
export const keepMix = (mix) => post('/mix/keep', mix, PLAN);

/** Looks that differ most. It takes some seconds with many lights. */
export const suggest = (count = 6) =>
  sampleName === null
    ? post('/suggest', { count }, { limitMillis: SUGGEST_LIMIT_MILLIS, late: LATE_SUGGEST })
    : ask('/samples/suggest.json', {});

/** A suggestion becomes a look of the plan, and a shot in it. */
export const putSuggestion = (id) => post('/suggest/put', { id }, PLAN);

function posted(body) {
  return {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', 'X-Lookstep': '1' },
    body: JSON.stringify(body),
  };
}

function post(path, body, waiting) {
  return ask(path, posted(body), waiting);
}

async function ask(path, how, waiting) {
  const { answer, body } = await send(path, how, waiting);
  const message = await jsonOf(answer, body);
  // 409: somebody else was first, and the answer says where the shoot is now.
  if (answer.ok || (answer.status === 409 && message?.kind === 'crew')) return message;
  throw new NotDelivered(refusal(answer.status, message));
}

/** The answer with all of its body, within the limit. */
async function send(path, how, { limitMillis = ANSWER_LIMIT_MILLIS, late = LATE } = {}) {
  const limit = new AbortController();
  const timer = setTimeout(() => limit.abort(), limitMillis);
  try {
    const answer = await fetch(path, { ...how, cache: 'no-store', signal: limit.signal });
    return { answer, body: await answer.blob() };
  } catch {
    throw new NotDelivered(
      limit.signal.aborted
        ? late
        : 'Not delivered: no connection to the computer. Press again.',
    );
  } finally {
    clearTimeout(timer);
  }
}

async function jsonOf(answer, body) {
  if (!(answer.headers.get('Content-Type') ?? '').includes('json')) return null;
  try {
    return JSON.parse(await body.text());
  } catch {
    return null;
  }
}

function refusal(status, message) {
  if (status === 401 || status === 403) {
    return 'Not allowed from here: open the link printed in the terminal.';
  }
  if (typeof message?.says === 'string') return `Not done: ${message.says}`;
  return `Not done: the computer answered ${status}. Press again.`;
}
