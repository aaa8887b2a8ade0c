/**
 * Keyboards, and the clickers that pretend to be one (they send PageDown and PageUp).
 *
 * Space and Enter belong to whatever control has the focus, unless that is the step key itself.
 */
const STEP = new Set([' ', 'Enter', 'PageDown', 'ArrowRight']);
const BACK = new Set(['PageUp', 'ArrowLeft', 'Backspace']);
const CONTROL = 'button, summary, a, input, select, textarea';

/**
 * @param {(what: 'step'|'back') => void} press called once for each press, never for auto-repeat
 * @param {string} ownKey selector of the step key
 */
export function listenToKeys(press, ownKey) {
  const meaning = (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return null;
    const plain = event.key === ' ' || event.key === 'Enter';
    const control = event.target instanceof Element ? event.target.closest(CONTROL) : null;
    if (plain && control !== null && !control.matches(ownKey)) return null;
    if (STEP.has(event.key)) return 'step';
    return BACK.has(event.key) ? 'back' : null;
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
