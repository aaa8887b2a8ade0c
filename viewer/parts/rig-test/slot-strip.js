/** Slots that stand in one row. */
const ROW = 32;
const LAST = 512;

/**
 * The 512 slots of a universe as one strip, cut into rows: which are whose, which are free. Rows
 * without a light are folded into one.
 */
export class SlotStrip {
  element = document.createElement('div');
  #rows = [];
  #mark = document.createElement('span');

  /** @param {{universe: number, spans: {from: number, to: number, light: string|null}[]}} universe */
  constructor({ universe, spans }) {
    this.element.className = 'strip';
    this.element.setAttribute('role', 'img');
    const words = spans.map(spanWords).join(', ');
    this.element.setAttribute('aria-label', `Universe ${universe}: ${words}`);
    this.#mark.className = 'slot-mark';
    for (const { first, last } of rowsOf(spans)) {
      const slots = document.createElement('div');
      slots.className = 'slots';
      slots.append(...spans.flatMap((span) => piece(span, first, last)));
      this.#rows.push({ first, last, slots });
      const row = document.createElement('div');
      row.className = 'row';
      const number = document.createElement('span');
      number.className = 'first';
      number.textContent = first;
      row.append(number, slots);
      this.element.append(row);
    }
  }

  /** @param {string|null} light what is on alone @param {number|null} slot of this universe */
  mark(light, slot) {
    for (const box of this.element.querySelectorAll('.piece')) {
      box.classList.toggle('tested', box.dataset.light === light);
    }
    const row = this.#rows.find(({ first, last }) => slot !== null && first <= slot && slot <= last);
    if (row === undefined) {
      this.#mark.remove();
      return;
    }
    place(this.#mark, slot, slot, row.first, row.last);
    row.slots.append(this.#mark);
  }
}

export function spanWords({ from, to, light }) {
  return `${slotsWords(from, to)} ${light ?? 'free'}`;
}

export function slotsWords(from, to) {
  return from === to ? `${from}` : `${from}–${to}`;
}

function rowsOf(spans) {
  const rows = [];
  for (let first = 1; first <= LAST; first += ROW) {
    const last = first + ROW - 1;
    const empty = !spans.some((span) => span.light !== null && span.from <= last && span.to >= first);
    const before = rows.at(-1);
    if (empty && before?.empty) before.last = last;
    else rows.push({ first, last, empty });
  }
  return rows;
}

/** What of a span lies in a row; a light that goes on in the next row has its name there too. */
function piece(span, first, last) {
  const from = Math.max(span.from, first);
  const to = Math.min(span.to, last);
  if (from > to) return [];
  const box = document.createElement('span');
  box.className = span.light === null ? 'gap' : 'piece';
  if (span.light !== null) {
    box.dataset.light = span.light;
    box.textContent = span.light;
  } else if (from === first && to === last) {
    box.textContent = `free to ${last}`;
  }
  box.title = spanWords(span);
  place(box, from, to, first, last);
  return [box];
}

function place(box, from, to, first, last) {
  const width = last - first + 1;
  box.style.insetInlineStart = `${((from - first) / width) * 100}%`;
  box.style.width = `${((to - from + 1) / width) * 100}%`;
}
