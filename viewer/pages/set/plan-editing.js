import '/parts/plan-desk/plan-desk.js';
import '/parts/plan-plot/plan-plot.js';
import { setting } from '/live/document.js';
import { Planning } from '/live/plan.js';
import { plotOf } from '/live/plot-of.js';
import { pictureUrl } from '/live/sample.js';
import { allShots } from '/live/words.js';

/** Of what the server has not told of yet. */
const COMPUTED = { says: 'computed, not photographed', url: '' };

/** Which positions are dragged on the plot, by the tab that is up. */
const WHOSE = { place: 'place', looks: 'look' };

/**
 * The plan desk over the set page: joins the desk, the picture and the plot in it to the plan on the
 * server. The plan is fetched when somebody opens the desk.
 */
export class PlanEditing {
  #desk;
  #picture;
  #plot;
  #planning = new Planning();
  #view = null;
  #url = null;
  #message = null;
  /** The light that was taken hold of last. */
  #light = null;

  /** @param {HTMLElement} desk holds a live-picture and a plan-plot @param {HTMLElement} key opens it */
  constructor(desk, key) {
    this.#desk = desk;
    this.#picture = desk.querySelector('live-picture');
    this.#plot = desk.querySelector('plan-plot');
    key.addEventListener('click', () => {
      desk.appear();
      this.#planning.load();
    });
    this.#planning.addEventListener('plan', () => this.#show());
    this.#planning.addEventListener('refused', ({ detail }) => {
      desk.refused(detail.words, detail.about);
    });
    desk.addEventListener('plan-edit', ({ detail }) => this.#planning.edit(detail.edits, detail.how));
    desk.addEventListener('plan-undo', () => this.#back('undo'));
    desk.addEventListener('plan-redo', () => this.#back('redo'));
    desk.addEventListener('plan-view', ({ detail }) => {
      this.#view = detail;
      this.#look();
    });
    this.#picture.addEventListener('shown', ({ detail }) => {
      if (detail === this.#url) desk.computing(false);
    });
    this.#plot.addEventListener('light-chosen', ({ detail }) => {
      this.#light = detail;
      if (desk.tab === 'rig') desk.choose('rig', detail);
      else this.#look();
    });
    this.#plot.addEventListener('light-moved', ({ detail }) => this.#move(detail));
  }

  get open() {
    return this.#desk.open;
  }

  /** @param {object} message of the crew */
  take(message) {
    const before = this.#origin(this.#view?.id ?? null).url;
    this.#message = message;
    if (!this.#desk.open) return;
    this.#planning.offered(message.plan);
    if (this.#view !== null && before !== this.#origin(this.#view.id).url) this.#look();
  }

  /** Whether the picture of a shot is from plates, as far as the server has said. */
  #origin(id) {
    const shots = this.#message === null ? [] : allShots(this.#message);
    return shots.find((shot) => shot.id === id)?.picture ?? COMPUTED;
  }

  #show() {
    const { answer, draft, busy } = this.#planning;
    if (answer !== null) this.#desk.show({ answer, draft, busy });
  }

  #back(what) {
    const { answer } = this.#planning;
    if (answer !== null && answer[what] !== null) this.#planning[what]();
  }

  #look() {
    const { tab, shot, id, waits, there, light } = this.#view;
    const { answer, draft } = this.#planning;
    this.#plot.show(plotOf(draft, shot, there, WHOSE[tab] ?? 'rig'), light ?? this.#light);
    // A shot that the server does not know yet leaves the picture of before.
    if (waits) return;
    const { says, url } = this.#origin(id);
    // The desk's own revision comes first, the message's address follows when the server has told.
    const version = `${answer.revision}-${url.replace(/^.*v=/, '')}`;
    this.#url = id === null ? null : pictureUrl(`/prediction/${encodeURIComponent(id)}.jpg?v=${version}`);
    this.#desk.about(says);
    const shown = this.#picture.querySelector('img')?.src ?? '';
    this.#desk.computing(this.#url !== null && !shown.endsWith(this.#url));
    this.#picture.show(this.#url, `${shot?.name ?? 'The shot'}, ${says}`);
  }

  #move({ name, ...where }) {
    const { draft } = this.#planning;
    const light = plotOf(draft, this.#view.shot, this.#view.there, WHOSE[this.#desk.tab] ?? 'rig').lights
      .find((one) => one.name === name);
    if (light === undefined || light.path === null) return;
    const [[what, to]] = Object.entries(where);
    const path = [...light.path, what];
    const edit = setting(draft, path, to);
    if (edit === null) return;
    const says = ({ was, value }) => {
      return `${name}, ${what}: ${(was ?? light[what]).join(', ')} is now ${value.join(', ')}`;
    };
    this.#planning.edit([edit], { says, merge: JSON.stringify(path) });
  }
}
