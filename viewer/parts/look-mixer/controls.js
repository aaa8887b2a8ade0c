export function element(kind, className = '', words = '') {
  const one = document.createElement(kind);
  if (className !== '') one.className = className;
  if (words !== '') one.textContent = words;
  return one;
}

/** @param {() => void} press */
export function key(words, press, className = 'small') {
  const one = element('button', className, words);
  one.type = 'button';
  one.addEventListener('click', press);
  return one;
}

/**
 * A slider that says while it moves.
 *
 * @param {{least: number, most: number, step: number, kind?: string, words: (value: number) => string,
 *     moved: (value: number) => void}} how
 */
export function slider(label, { least, most, step, kind = '', words, moved }) {
  const whole = element('label', kind === '' ? 'slide' : `slide ${kind}`);
  const input = element('input');
  const says = element('output');
  Object.assign(input, { type: 'range', min: least, max: most, step });
  const say = (exactly = null) => {
    says.textContent = exactly ?? words(Number(input.value));
    input.setAttribute('aria-valuetext', says.textContent);
  };
  input.addEventListener('input', () => {
    say();
    moved(Number(input.value));
  });
  whole.append(element('span', '', label), says, input);
  return {
    element: whole,
    /** @param {string|null} exactly in words, where the steps are coarser than what is set */
    show(value, exactly = null) {
      input.value = String(value);
      say(exactly);
    },
  };
}

/**
 * A row of keys of which one is down.
 *
 * @param {[string, string][]} choices value and words
 */
export function switchOf(label, choices, chosen) {
  const whole = element('div', 'switch');
  whole.setAttribute('role', 'group');
  whole.setAttribute('aria-label', label);
  const keys = new Map();
  for (const [value, words] of choices) {
    const one = key(words, () => chosen(value));
    keys.set(value, one);
    whole.append(one);
  }
  return {
    element: whole,
    show(value) {
      for (const [name, one] of keys) one.setAttribute('aria-pressed', String(name === value));
    },
  };
}
