import { by } from '../../live/scales.js';
import { renamePerson } from '../../live/shoot.js';
import { EntryForm, section } from './entry-form.js';
import { ClothField, StepField, TextField } from './fields.js';

/** One of the band. */
export class PersonForm extends EntryForm {
  constructor(ask) {
    super(ask);
    const who = section(this, 'Who');
    const name = new TextField('Name', (value) => {
      const { document, index } = this.view;
      this.ask(renamePerson(document, index, value), `${this.called} is now ${value}`, name);
    }, { needed: true });
    this.add(name, (person) => [person.name], who);
    this.keyed('plays', (send) => new TextField('Plays', send), undefined, who);
    this.keyed(
      'height',
      (send) => new StepField('Height', send, { step: by(0.01, 1, 2.3), unit: 'metres' }),
      undefined,
      who,
    );
    const looks = section(this, 'What they look like');
    for (const [what, words, list, none] of [
      ['skin', 'Skin', 'skin', 'medium'],
      ['hair', 'Hair', 'hair', 'brown'],
      ['top', 'Top', 'clothes', 'grey cloth'],
      ['bottom', 'Bottom', 'clothes', 'denim'],
    ]) {
      this.keyed(
        what,
        (send) => new ClothField(words, send, { none: `${none}, unsaid` }),
        (value, entry, { known }) => [value, known?.[list] ?? []],
        looks,
      );
    }
    this.keyed('note', (send) => new TextField('Note', send, { hint: 'what they do not want' }));
  }
}
