/**
 * Joins a step key and a 'one back' button to the stepping: each press is felt at once, and its fate
 * is said on the key.
 */
export function wireKey({ key, back, stepping }) {
  key.addEventListener('press-key', () => stepping.press('step'));
  back.addEventListener('click', (event) => {
    stepping.press('back');
    letGo(event);
  });
  stepping.addEventListener('pressed', ({ detail }) => {
    if (detail === 'step') key.feel('down');
  });
  stepping.addEventListener('sent', ({ detail }) => key.feel('sent', detail.late ? LATE : ''));
  stepping.addEventListener('answered', () => key.feel('done'));
  stepping.addEventListener('failed', ({ detail }) => key.feel('failed', detail));
  stepping.addEventListener('overtaken', () => key.feel('done', OVERTAKEN));
  stepping.addEventListener('nothing', ({ detail }) => key.feel('done', NOTHING[detail]));
}

/** What becomes of 'same again' and of a jump is said on the key too. */
export function wireAgain({ key, order }) {
  order.addEventListener('late', () => key.feel('done', LATE));
  order.addEventListener('answered', () => key.feel('done'));
  order.addEventListener('failed', ({ detail }) => key.feel('failed', detail));
}

/** Gives the focus back after a mouse or finger, or the next space bar would press this button again. */
export function letGo(event) {
  if (event.detail > 0) event.currentTarget.blur();
}

const LATE = 'Still sending …';
const OVERTAKEN = 'Somebody else has just stepped: press again if you mean the next one.';
const NOTHING = {
  step: 'No shot comes after this one.',
  back: 'There is nothing before this.',
};
