import { after } from '../../live/document.js';
import { idOf, placesOf } from '../../live/shoot.js';
import { element, key, newId, put } from './dom.js';
import { EntryList } from './entry-list.js';
import { adding, linesOf, moving, pathOf, removing, SHOOT, TABS } from './tabs.js';

/** So many letters of what can be undone stand on the key; the rest is in its title. */
const UNDO_LETTERS = 56;

/**
 * The plan as forms, in a layer over the page: tabs, the entries of one, the form of the chosen one.
 * What the page puts inside it (a picture, a plot) stands beside the form.
 *
 * appear(), close(); show({answer, draft, busy}): the server's answer and the document with what is on
 * its way; refused(words, about): why an edit was not made; computing(on): the picture is on its way;
 * about(words): where it comes from;
 * choose(tab, name): an entry, as by a tap on it.
 *
 * Sends 'closed', 'plan-edit' (detail: {edits, how: {says, merge, about}}), 'plan-undo', 'plan-redo', and
 * 'plan-view' (detail: {tab, shot, id, waits, there, light}: what the picture and the plot are of; a shot
 * waits while the server does not know it yet).
 */
class PlanDesk extends HTMLElement {
  #dialog = element('dialog');
  #title = element('h2');
  #undo = key('Undo', () => this.#tell('plan-undo'));
  #redo = key('Redo', () => this.#tell('plan-redo'));
  #says = element('p', 'plan-says');
  #tabs = new Map();
  #list = new EntryList((what, detail) => this.#entry(what, detail));
  #form = element('div', 'form-room');
  #none = element('p', 'says');
  #forms = new Map();
  #of = element('select');
  #computing = element('p', 'computing', 'computing …');
  #caption = element('p', 'says', 'computed, not photographed');
  #tab = 'people';
  /** By tab, the entry that is shown: its place, and its name to find it again. */
  #chosen = { people: 0, place: 0, rig: 0, looks: 0, shots: 0 };
  #names = {};
  /** By tab, the names of all entries as they were shown last. */
  #before = {};
  #pictured = null;
  #seen = null;
  #refused = '';
  #badField = null;

  connectedCallback() {
    if (this.#dialog.isConnected) return;
    const [picture, plot] = this.children;
    const back = key('Back to the set', () => this.close(), 'small back');
    const head = element('header');
    head.append(back, this.#title, this.#undo, this.#redo);
    const tabs = element('div', 'tabs');
    tabs.setAttribute('role', 'tablist');
    tabs.setAttribute('aria-label', 'The plan');
    const panel = element('div', 'desk-panel');
    panel.id = newId();
    panel.setAttribute('role', 'tabpanel');
    for (const [name, { words }] of Object.entries(TABS)) {
      const one = key(words, () => this.#show(name), '');
      one.id = newId();
      one.setAttribute('role', 'tab');
      one.setAttribute('aria-controls', panel.id);
      tabs.append(one);
      this.#tabs.set(name, one);
    }
    tabs.addEventListener('keydown', (event) => this.#tabKey(event));
    panel.append(this.#list.element, this.#form, this.#beside(picture, plot));
    this.#says.setAttribute('role', 'status');
    this.#dialog.setAttribute('aria-labelledby', (this.#title.id = newId()));
    const line = element('div', 'tab-line');
    line.append(tabs, this.#says);
    this.#dialog.append(head, line, panel);
    this.append(this.#dialog);
    this.#panel = panel;
    this.#listen();
    this.#marks();
  }

  #panel;

  get open() {
    return this.#dialog.open;
  }

  /** Over the page. */
  appear() {
    if (!this.#dialog.open) {
      this.#clear();
      this.#dialog.showModal();
    }
    this.#tabs.get(this.#tab).focus();
  }

  close() {
    // A field that is being typed in is sent.
    if (this.#dialog.contains(document.activeElement)) document.activeElement.blur();
    this.#dialog.close();
  }

  show({ answer, draft, busy }) {
    const first = this.#seen === null;
    const mended = !first && this.#seen.answer.problem !== '' && answer.problem === '';
    this.#seen = { answer, draft };
    // What was refused because of the file is over with it.
    if (mended) this.#clear();
    if (!busy && this.#refused === '') this.#say();
    put(this.#title, answer.file ?? 'The plan');
    this.#back(this.#undo, 'Undo', answer.undo);
    this.#back(this.#redo, 'Redo', answer.redo);
    if (first) this.#pictured = idOf(draft, draft.shots?.[0] ?? {});
    this.#follow();
    this.#draw();
  }

  /** @param {object|null} about the field that was given as about, or null */
  refused(words, about) {
    this.#refused = words;
    put(this.#says, `✕ ${words}`);
    this.#says.classList.add('failed');
    about?.refuse?.(words);
    this.#badField = about;
  }

  /** Where the picture comes from. */
  about(words) {
    put(this.#caption, words);
  }

  computing(on) {
    this.#computing.hidden = !on;
  }

  choose(tab, name) {
    const index = linesOf(tab, this.#seen.draft).findIndex((line) => line.name === name);
    if (index < 0) return;
    this.#choose(tab, index);
    this.#draw();
  }

  get tab() {
    return this.#tab;
  }

  #beside(picture, plot) {
    const aside = element('aside', 'beside-form');
    const head = element('label', 'picture-of');
    head.append(element('span', '', 'Picture of'), this.#of);
    const frame = element('div', 'picture-frame');
    this.#computing.hidden = true;
    this.#computing.setAttribute('role', 'status');
    if (picture !== undefined) frame.append(picture);
    frame.append(this.#computing);
    aside.append(head, frame, this.#caption);
    if (plot !== undefined) aside.append(plot);
    this.#of.addEventListener('change', () => {
      this.#pictured = this.#of.value;
      if (this.#tab === 'shots') {
        const { draft } = this.#seen;
        this.#choose('shots', draft.shots.findIndex((shot) => idOf(draft, shot) === this.#pictured));
      }
      this.#draw();
    });
    return aside;
  }

  #listen() {
    this.#dialog.addEventListener('went', ({ detail }) => {
      this.#choose(this.#tab, detail);
      this.#draw();
    });
    this.#dialog.addEventListener('keydown', (event) => {
      const typing = event.target.dataset?.typing !== undefined;
      if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z' && !typing) {
        event.preventDefault();
        if (!event.repeat) this.#tell(event.shiftKey ? 'plan-redo' : 'plan-undo');
      }
      // The keys of the page below must not step or turn the lights.
      event.stopPropagation();
    });
    this.#dialog.addEventListener('keyup', (event) => event.stopPropagation());
    this.#dialog.addEventListener('close', () => this.#tell('closed'));
    // After a tap beside all fields the focus is nowhere in the layer.
    for (const kind of ['keydown', 'keyup']) {
      addEventListener(kind, (event) => {
        if (!this.open || this.#dialog.contains(event.target)) return;
        event.stopImmediatePropagation();
        if (kind === 'keyup' || event.repeat) return;
        if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z') {
          event.preventDefault();
          this.#tell(event.shiftKey ? 'plan-redo' : 'plan-undo');
        }
      }, true);
    }
  }

  #say() {
    const { problem = '', says = '' } = this.#seen.answer;
    put(this.#says, problem !== '' ? `✕ ${problem}` : says);
    this.#says.classList.toggle('failed', problem !== '');
  }

  #back(button, words, what) {
    const none = what === null || what === undefined;
    const short = !none && what.length > UNDO_LETTERS ? `${what.slice(0, UNDO_LETTERS)}…` : what;
    put(button, none ? words : `${words}: ${short}`);
    button.title = none ? '' : what;
    button.setAttribute('aria-disabled', String(none));
  }

  /** The chosen entries are found again by name, else by their place. */
  #follow() {
    const { draft } = this.#seen;
    for (const tab of Object.keys(TABS)) {
      const fixed = fixedOf(tab);
      const names = linesOf(tab, draft).map((line) => line.name);
      const index = this.#chosen[tab] - fixed;
      const before = this.#before[tab] ?? [];
      this.#before[tab] = names;
      if (index < 0) continue;
      const found = names.indexOf(this.#names[tab]);
      // One that nobody has seen before is the same entry under another name.
      const renamed = names.length === before.length && !before.includes(names[index]);
      const stays = names[index] === this.#names[tab] || renamed || found < 0;
      const next = stays ? Math.min(index, names.length - 1) : found;
      this.#chosen[tab] = Math.max(0, next + fixed);
      this.#names[tab] = names[next];
    }
  }

  /** @param {number} index among the entries, without those that are fixed */
  #choose(tab, index) {
    const { draft } = this.#seen;
    this.#chosen[tab] = index + fixedOf(tab);
    this.#names[tab] = linesOf(tab, draft)[index]?.name;
    if (tab === 'shots' && draft.shots?.[index] !== undefined) {
      this.#pictured = idOf(draft, draft.shots[index]);
    }
  }

  #show(tab) {
    this.#tab = tab;
    this.#clear();
    this.#marks();
    if (this.#seen === null) return;
    if (tab === 'shots') this.#choose('shots', this.#chosen.shots);
    this.#draw();
    this.#list.reveal();
    this.#form.scrollTop = 0;
    this.#dialog.scrollTop = 0;
  }

  #marks() {
    for (const [name, one] of this.#tabs) {
      const on = name === this.#tab;
      one.setAttribute('aria-selected', String(on));
      one.tabIndex = on ? 0 : -1;
      if (on) this.#panel.setAttribute('aria-labelledby', one.id);
    }
    this.#dialog.dataset.tab = this.#tab;
  }

  #tabKey(event) {
    const names = [...this.#tabs.keys()];
    const now = names.indexOf(this.#tab);
    const to = {
      ArrowRight: (now + 1) % names.length,
      ArrowLeft: (now + names.length - 1) % names.length,
      Home: 0,
      End: names.length - 1,
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    this.#show(names[to]);
    this.#tabs.get(names[to]).focus();
  }

  #draw() {
    const { draft, answer } = this.#seen;
    const { known } = answer;
    const tab = this.#tab;
    const fixed = fixedOf(tab);
    const lines = linesOf(tab, draft);
    const shown = fixed === 1 ? [{ name: SHOOT.words, aside: draft.title ?? '' }, ...lines] : lines;
    const chosen = this.#chosen[tab];
    const { one } = TABS[tab];
    this.#list.show(shown, chosen, { one, fixed });
    const shoot = chosen < fixed;
    const form = shoot ? this.#formOf('shoot', SHOOT) : this.#formOf(tab, TABS[tab]);
    const there = shoot || lines[chosen - fixed] !== undefined;
    put(this.#none, `There is nothing here yet. Add ${one}.`);
    const wanted = there ? form.element : this.#none;
    if (this.#form.firstChild !== wanted) this.#form.replaceChildren(wanted);
    const index = chosen - fixed;
    if (there) form.show({ document: draft, known, path: shoot ? [] : pathOf(tab, draft, index), index });
    this.#beThere();
  }

  #formOf(name, { form }) {
    if (!this.#forms.has(name)) this.#forms.set(name, form((edits, how) => this.#edit(edits, how)));
    return this.#forms.get(name);
  }

  #edit(edits, how) {
    if (edits.length === 0) return;
    this.#clear();
    this.#tell('plan-edit', { edits, how });
  }

  /** What was refused is over. */
  #clear() {
    this.#refused = '';
    this.#badField?.refuse?.('');
    this.#badField = null;
    if (this.#seen !== null) this.#say();
  }

  #entry(what, detail) {
    if (this.#seen === null) return;
    const { draft, answer } = this.#seen;
    const tab = this.#tab;
    const fixed = fixedOf(tab);
    const index = this.#chosen[tab] - fixed;
    const { known } = answer;
    const { one } = TABS[tab];
    const name = linesOf(tab, draft)[index]?.name ?? '';
    if (what === 'choose') {
      this.#clear();
      if (detail < fixed) this.#chosen[tab] = detail;
      else this.#choose(tab, detail - fixed);
      this.#draw();
      this.#form.scrollTop = 0;
      this.#bringUp();
      return;
    }
    const count = linesOf(tab, draft).length;
    if (what === 'add') {
      const to = tab === 'shots' ? Math.min(index + 1, count) : count;
      this.#andGo(adding(tab, draft, to, known), `${one} more`, to);
      this.#nameIt();
    } else if (what === 'copy') {
      const to = tab === 'place' && !Array.isArray(draft.places) ? count : index + 1;
      this.#andGo(TABS[tab].copy(draft, index, known), `${name} copied`, to);
      this.#nameIt();
    } else if (what === 'remove') {
      this.#andGo(removing(tab, draft, index), `${name} removed`, Math.min(index, count - 2));
    } else if (what === 'move') {
      this.#andGo(moving(tab, draft, detail.from, detail.to), `${name} moved`, detail.to);
    }
  }

  /** The entry that is chosen afterwards must be found among those of afterwards. */
  #andGo(edits, says, index) {
    if (edits.length === 0) return;
    const then = after(this.#seen.draft, edits);
    this.#chosen[this.#tab] = Math.max(0, index + fixedOf(this.#tab));
    this.#names[this.#tab] = linesOf(this.#tab, then)[index]?.name;
    this.#edit(edits, { says, merge: null, about: null });
    if (this.#tab === 'shots' && this.#seen.draft.shots?.[this.#chosen.shots] !== undefined) {
      this.#choose('shots', this.#chosen.shots);
      this.#draw();
    }
    this.#list.reveal();
  }

  /** In one column, the picture and the form lie below the list. */
  #bringUp() {
    if (this.#dialog.scrollHeight <= this.#dialog.clientHeight) return;
    this.#dialog.querySelector('.picture-of').scrollIntoView({ block: 'start' });
  }

  #nameIt() {
    const field = this.#form.querySelector('input[type=text]');
    field?.focus();
    field?.select();
    this.#form.scrollTop = 0;
  }

  /** What picture and plot are of. */
  #beThere() {
    const { draft, answer } = this.#seen;
    const shots = draft.shots ?? [];
    const tab = this.#tab;
    let shot = shots.find((one) => idOf(draft, one) === this.#pictured) ?? shots[0];
    if (tab === 'shots') shot = shots[this.#chosen.shots] ?? shot;
    if (tab === 'looks') {
      const look = draft.looks?.[this.#chosen.looks]?.name;
      if (shot?.look !== look) shot = shots.find((one) => one.look === look);
    }
    const id = shot === undefined ? null : idOf(draft, shot);
    if (id !== null) this.#pictured = id;
    this.#showShots(shots, draft, id);
    const known = (answer.document.shots ?? []).some((one) => idOf(answer.document, one) === id);
    const here = placesOf(draft);
    const there = tab === 'place' ? (here[this.#chosen.place - 1] ?? here[0]) : here[0];
    const light = tab === 'rig' ? (draft.rig?.[this.#chosen.rig]?.name ?? null) : null;
    put(this.#caption, id === null ? 'No shot has this look yet: give it to one, and its picture is here.' : 'computed, not photographed');
    this.#tell('plan-view', { tab, shot, id: known ? id : null, waits: id !== null && !known, there, light });
  }

  #showShots(shots, draft, id) {
    const options = shots.map((shot) => [idOf(draft, shot) ?? '', shot.name ?? 'Solo']);
    if (id === null) options.unshift(['', 'none']);
    const text = JSON.stringify(options);
    if (text !== this.#of.dataset.options) {
      this.#of.dataset.options = text;
      this.#of.replaceChildren(...options.map(([value, words]) => new Option(words, value)));
    }
    this.#of.value = id ?? '';
  }

  #tell(what, detail = null) {
    this.dispatchEvent(new CustomEvent(what, { detail }));
  }
}

const fixedOf = (tab) => (tab === 'place' ? 1 : 0);

customElements.define('plan-desk', PlanDesk);
