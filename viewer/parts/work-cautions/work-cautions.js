/**
 * What can hurt on a set with lights. Open until the window starts, then folded away.
 *
 * show(clockState)
 */
const CAUTIONS = [
  [
    'Mains',
    'Fused and protected supply (RCD or GFCI), sound leads, nothing wet, no strips in series, reels unwound. Add up the amperes before you plug in.',
  ],
  [
    'Rigging',
    'Stands weighted and out of the ways out; anything overhead has a second hold. Cables taped or covered where people walk.',
  ],
  ['Heat', 'Lamps get hot: vents free, cloth well away, let them cool before packing.'],
  [
    'Eyes and flashing',
    'Nobody looks into a bare light at close range. Sudden changes can harm people with photosensitive epilepsy: ask first, and warn before a test.',
  ],
  [
    'DMX',
    'It has no error checking. It is for lights only: never for pyrotechnics, moving scenery, hoists or anything else that can injure (ANSI E1.11).',
  ],
  [
    'Rules',
    'Local codes and the house rules come first; electrical and rigging work is for licensed people. This page does not certify that anything is safe.',
  ],
];

class WorkCautions extends HTMLElement {
  #details = document.createElement('details');
  #state = null;

  connectedCallback() {
    if (this.firstChild !== null) return;
    const summary = document.createElement('summary');
    summary.textContent = 'Cautions';
    const list = document.createElement('dl');
    for (const [what, words] of CAUTIONS) {
      const term = document.createElement('dt');
      term.textContent = what;
      const description = document.createElement('dd');
      description.textContent = words;
      list.append(term, description);
    }
    this.#details.append(summary, list);
    this.append(this.#details);
  }

  show(clockState) {
    if (clockState === this.#state) return;
    // Only the start folds it: somebody who opens it later keeps it open.
    if (this.#state === null || this.#state === 'ready' || clockState === 'ready') {
      this.#details.open = clockState === 'ready';
    }
    this.#state = clockState;
  }
}

customElements.define('work-cautions', WorkCautions);
