/**
 * What a page asks of the server. Each asks once and throws NotDelivered if there was no good answer;
 * the answer is a crew message, or null when the server sent none.
 */
const ANSWER_LIMIT_MILLIS = 4000;

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

async function post(path, body) {
  const limit = new AbortController();
  const timer = setTimeout(() => limit.abort(), ANSWER_LIMIT_MILLIS);
  try {
    const answer = await fetch(path, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'X-Lookstep': '1' },
      body: JSON.stringify(body),
      cache: 'no-store',
      signal: limit.signal,
    });
    const message = await jsonOf(answer);
    // 409: somebody else was first, and the answer says where the shoot is now.
    if (answer.ok || (answer.status === 409 && message?.kind === 'crew')) return message;
    throw new NotDelivered(refusal(answer.status, message));
  } catch (problem) {
    if (problem instanceof NotDelivered) throw problem;
    throw new NotDelivered(
      limit.signal.aborted
        ? 'No answer from the computer. Look at the light; if it did not change, press again.'
        : 'Not delivered: no connection to the computer. Press again.',
    );
  } finally {
    clearTimeout(timer);
  }
}

async function jsonOf(answer) {
  if (!(answer.headers.get('Content-Type') ?? '').includes('json')) return null;
  try {
    return await answer.json();
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
