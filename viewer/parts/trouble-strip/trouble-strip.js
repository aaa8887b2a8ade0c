/**
 * What is wrong right now, loud and in plain words; nothing when nothing is.
 *
 * show(troubles): [{head, mend}]
 */
class TroubleStrip extends HTMLElement {
  connectedCallback() {
    this.setAttribute('role', 'alert');
  }

  show(troubles) {
    const key = JSON.stringify(troubles);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.replaceChildren(
      ...troubles.map(({ head, mend }) => {
        const line = document.createElement('p');
        const strong = document.createElement('strong');
        strong.textContent = head;
        line.append(strong, ' ', mend);
        return line;
      }),
    );
  }
}

customElements.define('trouble-strip', TroubleStrip);
