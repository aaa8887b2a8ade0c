import { setting } from '../../live/document.js';
import { by, nextLens } from '../../live/scales.js';
import { makeSafe, namesOf, peopleOf, slug, standing } from '../../live/shoot.js';
import { arrangementOf, fitted, ROW_METRES, SPACING_METRES, writtenAs } from '../../live/standing.js';
import { element, key, put } from './dom.js';
import { EntryForm, section } from './entry-form.js';
import { ChoiceField, LinesField, StepField, SwitchField, TextField } from './fields.js';
import { PeopleField } from './people-field.js';
import { ShapeField } from './shape-field.js';

const SIDES = ['top', 'bottom', 'left', 'right'];
const IMPORTANCE = 5;
const IMPORTANCE_SAFE = 10;

/** One picture to make, or a round of solos. */
export class ShotForm extends EntryForm {
  #id = element('p', 'says');
  #safe = key('Make this the safe shot', () => this.#makeSafe());
  #people;
  #shape;
  #rows;
  #stand;
  #shown = null;

  constructor(ask) {
    super(ask);
    const head = section(this, 'The shot');
    const name = new TextField('Name', (value) => this.#rename(value, name), { needed: true });
    this.add(name, (shot) => [shot.name], head);
    this.keyed(
      'look',
      (send) => new ChoiceField('Look', send),
      (value, shot, { document }) => [value, namesOf(document.looks)],
      head,
    );
    const kind = new SwitchField('One picture, or one of each', (value) => this.#setSolos(value, kind), [
      ['one', 'one picture'],
      ['solos', 'a solo of each'],
    ]);
    this.add(kind, (shot) => [shot.solos === true ? 'solos' : 'one'], head);
    const safe = element('div', 'row');
    safe.append(this.#safe, this.#id);
    head.append(safe);
    this.#people = new PeopleField((names) => this.#setPeople(names));
    this.add(this.#people, (shot, { document }) => [
      peopleOf(document, shot),
      !Array.isArray(shot.people),
      namesOf(document.people),
    ]);
    this.#addStanding();
    this.#addCamera();
    this.keyed('say', (send) => new LinesField('What to say to them, a line each', send));
    this.#addUse();
  }

  get called() {
    return this.entry?.name ?? 'solos';
  }

  show(view) {
    const at = JSON.stringify(view.index);
    if (at !== this.#shown) this.#people.forget();
    this.#shown = at;
    super.show(view);
    const shot = this.entry;
    const solos = shot.solos === true;
    const safe = shot.safe === true;
    put(this.#safe, safe ? 'This is the safe shot' : 'Make this the safe shot');
    this.#safe.setAttribute('aria-pressed', String(safe));
    this.#safe.hidden = solos;
    put(this.#id, shot.id === undefined ? '' : `id ${shot.id}`);
    this.#stand.hidden = solos;
    this.#rows.element.hidden = arrangementOf(shot.arrangement).shape !== 'rows';
  }

  #addStanding() {
    this.#stand = element('section', 'group');
    this.#shape = new ShapeField((shape) => this.#arrange({ shape }, this.#shape));
    this.add(this.#shape, (shot) => [arrangementOf(shot.arrangement).shape], this.#stand);
    const more = element('div', 'fields');
    this.#rows = new TextField('People in each row, front first', (text) => {
      const rows = (text ?? '').split(/[^\d]+/).filter((one) => one !== '').map(Number);
      this.#arrange({ shape: 'rows', rows }, this.#rows, false);
    }, { hint: '2-3', needed: true });
    this.add(this.#rows, (shot) => [arrangementOf(shot.arrangement).rows.join('-')], more);
    for (const [what, words, otherwise] of [
      ['spacing', 'Shoulder to shoulder', SPACING_METRES],
      ['row', 'Row to row', ROW_METRES],
    ]) {
      const field = new StepField(words, (value) => this.#arrange({ [what]: value }, field, false), {
        step: by(0.05, 0.3, 2),
        unit: 'metres',
      });
      this.add(field, (shot) => {
        const { shape, [what]: value } = arrangementOf(shot.arrangement);
        field.element.hidden = what === 'row' && shape !== 'rows' && shape !== 'cluster';
        return [value, otherwise];
      }, more);
    }
    this.#stand.append(more);
    this.element.append(this.#stand);
  }

  #addCamera() {
    const camera = section(this, 'Camera');
    this.keyed('lens', (send) => new StepField('Lens', send, { step: nextLens, unit: 'mm' }), undefined, camera);
    this.keyed(
      'distance',
      (send) => new StepField('To the nearest face', send, { step: by(0.1, 0.3, 60), unit: 'm' }),
      undefined,
      camera,
    );
    this.keyed(
      'height',
      (send) => new StepField('Lens above the floor', send, { step: by(0.1, 0.1, 10), unit: 'm' }),
      (value) => [value, 1.5],
      camera,
    );
    this.keyed(
      'framing',
      (send) => new ChoiceField('Framing', send, { none: 'landscape 3:2' }),
      (value, shot, { known }) => [value, known?.framings ?? []],
      camera,
    );
    this.keyed(
      'text',
      (send) => new ChoiceField('Room for words', send, { none: 'none' }),
      (value) => [value, SIDES],
      camera,
    );
  }

  #addUse() {
    const use = section(this, 'In the running order');
    this.keyed(
      'importance',
      (send) => new StepField('Importance', send, { step: by(1, 1, 10) }),
      (value, shot) => [value, shot.safe === true ? IMPORTANCE_SAFE : IMPORTANCE],
      use,
    );
    this.keyed(
      'job',
      (send) => new ChoiceField('For', send, { none: 'first client' }),
      (value, shot, { document }) => [value, (document.jobs ?? []).map((job) => job.client)],
      use,
    );
    this.keyed('together', (send) => new TextField('Made together with', send, { hint: 'on the stairs' }), undefined, use);
    this.keyed(
      'seconds',
      (send) => new StepField('Seconds it takes', send, { step: by(5, 1, 3600) }),
      (value, shot) => [value, shot.solos === true ? 10 : 20],
      use,
    );
  }

  /** The frames of a shot are kept under its id, so that stays. */
  #rename(value, about) {
    const { document, path } = this.view;
    const shot = this.entry;
    const id =
      shot.id === undefined && shot.solos !== true && slug(shot.name ?? '') !== ''
        ? setting(document, [...path, 'id'], slug(shot.name))
        : null;
    const name = setting(document, [...path, 'name'], value);
    this.ask([id, name].filter((edit) => edit !== null), `${this.called} is now ${value}`, about);
  }

  #makeSafe() {
    if (this.entry.safe === true) return;
    const { document, index } = this.view;
    this.ask(makeSafe(document, index), `${this.called} is the safe shot`);
    this.element.dispatchEvent(new CustomEvent('went', { detail: 0, bubbles: true }));
  }

  #setPeople(names) {
    const { document, path } = this.view;
    const edit = setting(document, [...path, 'people'], names);
    if (edit === null) return;
    const says = `${this.called}, people: ${names?.join(', ') ?? 'everybody'}`;
    this.ask(standing(document, [edit]), says, this.#people);
  }

  #setSolos(value, about) {
    const { document, path } = this.view;
    const solos = value === 'solos';
    const edits = [setting(document, [...path, 'solos'], solos ? true : undefined)];
    // In a round of solos each stands alone.
    if (solos) edits.push(setting(document, [...path, 'arrangement'], undefined));
    this.ask(edits.filter((edit) => edit !== null), `${this.called}: ${solos ? 'a solo of each' : 'one picture'}`, about);
  }

  /** @param {boolean} fit rows are filled so that all stand; not where they were just written */
  #arrange(change, about, fit = true) {
    const { document } = this.view;
    const shot = this.entry;
    const wanted = { ...arrangementOf(shot.arrangement), ...change };
    const count = peopleOf(document, shot).length;
    const rows = wanted.shape === 'rows' ? wanted.rows : [];
    const filled = fit && wanted.shape === 'rows' ? fitted({ ...wanted, rows }, count) : { ...wanted, rows };
    if (!['rows', 'cluster'].includes(filled.shape)) filled.row = undefined;
    this.set(['arrangement'], writtenAs(filled), about, fit ? 'typed' : 'stepped');
  }
}

/** A new shot: like the one it stands behind, or of the first look. */
export function newShot(document, like, name, id) {
  const shot = {
    id,
    name,
    look: like?.look ?? namesOf(document.looks)[0] ?? '',
    lens: like?.lens ?? 35,
    distance: like?.distance ?? 4.2,
  };
  if ((document.shots ?? []).length === 0) shot.safe = true;
  return shot;
}

