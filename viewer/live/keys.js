/**
 * Keyboards, and the clickers that pretend to be one (they send PageDown and PageUp).
 *
 * Space and Enter belong to whatever control has the focus, unless that is the step key itself.
 */
const STEP = new Set([' ', 'Enter', 'PageDown']);
const BACK = new Set(['PageUp', 'Backspace']);
const ARROWS = new Map([['ArrowRight', 'step'], ['ArrowLeft', 'back']]);
const CONTROL = 'button, summary, a, input, select, textarea';

/**
 * @param {(what: 'step'|'back') => void} press called once for each press, never for auto-repeat
 * @param {string} ownKey selector of the step key
 * @param {boolean} arrows whether right and left step too; not where they turn the lights
 */
export function listenToKeys(press, ownKey, arrows = true) {
  const meaning = (event) => {
    if (chord(event) || (typed(event) && !event.key.startsWith('Page'))) return null;
    const plain = event.key === ' ' || event.key === 'Enter';
    const control = event.target instanceof Element ? event.target.closest(CONTROL) : null;
    if (plain && control !== null && !control.matches(ownKey)) return null;
    if (STEP.has(event.key)) return 'step';
    if (BACK.has(event.key)) return 'back';
    return arrows ? (ARROWS.get(event.key) ?? null) : null;
  };
  addEventListener('keydown', (event) => {
    const what = meaning(event);
    if (what === null) return;
    event.preventDefault();
    if (!event.repeat) press(what);
  });
  // A focused button would be clicked by the release of the space bar as well.
  addEventListener('keyup', (event) => {
    if (meaning(event) !== null) event.preventDefault();
  });
}

/**
 * Letters, digits and arrows that do something on this page; letters come as small ones.
 *
 * @param {(key: string, held: boolean) => boolean} take true if the key meant something
 */
export function listenToLetters(take) {
  addEventListener('keydown', (event) => {
    if (chord(event) || typed(event)) return;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    if (take(key, event.repeat)) event.preventDefault();
  });
}

const chord = (event) => event.ctrlKey || event.altKey || event.metaKey;

/** True for a key that goes into a field. */
function typed(event) {
  return event.target instanceof Element && event.target.closest('input, select, textarea') !== null;
}
