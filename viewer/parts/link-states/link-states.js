/**
 * The links to the gear, the cameras' clocks and the pages that are open, then the notes.
 *
 * show({links, pages, notes, cameras})
 */
class LinkStates extends HTMLElement {
  #links = document.createElement('ul');
  #notes = document.createElement('ul');

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#links.className = 'links';
    this.#notes.className = 'notes';
    this.append(this.#links, this.#notes);
  }

  show({ links, pages, notes, cameras }) {
    const key = JSON.stringify([links, pages, notes, cameras]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#links.replaceChildren(...links.map(linkLine), ...cameras.map(clockLine), pagesLine(pages));
    this.#notes.replaceChildren(
      ...notes.map((note) => {
        const item = document.createElement('li');
        item.textContent = note;
        return item;
      }),
    );
  }
}

function linkLine(link) {
  const item = document.createElement('li');
  item.className = link.state === 'up' ? 'up' : 'down';
  const name = document.createElement('b');
  name.textContent = link.name;
  const state = document.createElement('span');
  state.className = 'state';
  state.textContent = link.state;
  item.append(name, ' ', state, ' ', link.says);
  return item;
}

function clockLine({ camera, says }) {
  const item = document.createElement('li');
  item.className = 'pages';
  const name = document.createElement('b');
  name.textContent = camera;
  item.append(name, ' ', says);
  return item;
}

function pagesLine(pages) {
  const item = document.createElement('li');
  const name = document.createElement('b');
  name.textContent = 'pages';
  item.className = 'pages';
  const tablets = pages.band === 0 ? 'no tablet shows the picture' : count(pages.band, 'tablet');
  item.append(name, ' ', `${tablets}, ${count(pages.crew, 'crew page')}`);
  return item;
}

function count(n, thing) {
  return `${n} ${thing}${n === 1 ? '' : 's'}`;
}

customElements.define('link-states', LinkStates);
