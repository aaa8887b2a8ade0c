let made = 0;

/** A name for what another element refers to. */
export const newId = () => `plan-${(made += 1)}`;

export function element(kind, className = '', words = '') {
  const one = document.createElement(kind);
  if (className !== '') one.className = className;
  if (words !== '') one.textContent = words;
  return one;
}

/** @param {(event: Event) => void} press */
export function key(words, press, className = 'small') {
  const one = element('button', className, words);
  one.type = 'button';
  one.addEventListener('click', press);
  return one;
}

export function put(target, words) {
  if (target.textContent !== words) target.textContent = words;
}
