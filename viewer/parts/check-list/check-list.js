/**
 * What the checks of the plan say: the present shot first, then the whole plan, then the others.
 *
 * show(checks, shots, current): parts of the crew message. Sends 'mend-do' (detail: a finding's id).
 */
class CheckList extends HTMLElement {
  #verdict = document.createElement('p');
  #groups = document.createElement('div');

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#verdict.className = 'verdict';
    this.#verdict.setAttribute('role', 'status');
    this.append(this.#verdict, this.#groups);
  }

  show(checks, shots, current) {
    const names = shots.map(({ id, name }) => [id, name]);
    const key = JSON.stringify([checks, names, current]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#verdict.textContent = verdictOf(checks);
    this.#verdict.classList.toggle('ready', checks.ready);
    const had = document.activeElement?.closest('check-list button')?.value;
    this.#groups.replaceChildren(
      ...grouped(checks.findings, names, current).map((group) => this.#group(group)),
    );
    const again = [...this.#groups.querySelectorAll('button')].find((one) => one.value === had);
    again?.focus();
  }

  #group({ name, findings }) {
    const section = document.createElement('section');
    const head = document.createElement('h2');
    head.textContent = name;
    const list = document.createElement('ul');
    list.append(...findings.map((one) => this.#finding(one)));
    section.append(head, list);
    return section;
  }

  #finding({ id, kind, weight, says, why, mend, canMend }) {
    const item = document.createElement('li');
    item.className = weight;
    const sign = document.createElement('span');
    sign.className = 'sign';
    sign.textContent = SIGNS[weight] ?? '';
    sign.setAttribute('aria-hidden', 'true');
    const words = document.createElement('div');
    // The figures stand where there is something to decide.
    const figures = weight === 'good' ? '' : why;
    words.append(
      line('says', says),
      line('why', [kind, figures].filter((one) => one !== '').join(': ')),
    );
    if (mend !== '' && !canMend) words.append(line('mend', `Mend: ${mend}`));
    item.append(sign, words);
    if (canMend) {
      const key = document.createElement('button');
      key.type = 'button';
      key.className = 'small';
      key.value = id;
      key.textContent = mend === '' ? 'Mend it' : `Mend: ${mend}`;
      key.addEventListener('click', (event) => {
        if (event.detail > 0) key.blur();
        this.dispatchEvent(new CustomEvent('mend-do', { detail: id }));
      });
      words.append(key);
    }
    return item;
  }
}

const SIGNS = { wrong: '✕', look: '?', good: '✓' };
const WEIGHTS = ['wrong', 'look', 'good'];

function verdictOf({ ready, wrong, look }) {
  const words = [];
  if (wrong > 0) words.push(`${wrong} wrong`);
  if (look > 0) words.push(`${look} to look at`);
  const rest = words.join(', ');
  if (ready) return rest === '' ? '✓ Ready' : `✓ Ready; ${rest}`;
  return rest === '' ? 'Not ready' : `Not ready: ${rest}`;
}

function grouped(findings, names, current) {
  const nameOf = (id) => names.find(([one]) => one === id)?.[1] ?? id;
  const order = [current, '', ...names.map(([id]) => id)];
  const ids = [...new Set([...order, ...findings.map(({ shot }) => shot)])];
  return ids
    .map((id) => ({
      name: id === '' ? 'The whole shoot' : id === current ? `Now: ${nameOf(id)}` : nameOf(id),
      findings: WEIGHTS.flatMap((weight) =>
        findings.filter((one) => one.shot === id && one.weight === weight),
      ),
    }))
    .filter((group) => group.findings.length > 0);
}

function line(className, words) {
  const made = document.createElement('span');
  made.className = className;
  made.textContent = words;
  return made;
}

customElements.define('check-list', CheckList);
