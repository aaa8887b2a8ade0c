/**
 * For whom the frames are from now on, and a short form for who wants to be photographed too.
 *
 * show(jobs, shots): the part of the crew message; every shot that can be made again for a new job.
 * Sends 'job-do' (detail: {open: {client, promised, note, shots}} or {switch: client}).
 * With the attribute `brief` it is only the present client and a key back to each other one, and
 * nothing at all while there is one job.
 */
class JobSwitch extends HTMLElement {
  #now = document.createElement('p');
  #client = document.createElement('b');
  #list = document.createElement('ul');
  #hire = document.createElement('button');
  #form = document.createElement('form');
  #fields = {};
  #again = document.createElement('div');
  #said = document.createElement('p');
  #shots = [];
  #jobs = null;
  /** What somebody chose by hand; what is not in it follows from the shoot. */
  #chosen = new Map();

  connectedCallback() {
    if (this.firstChild !== null) return;
    this.#now.className = 'for';
    this.#now.append('For ', this.#client);
    this.#now.setAttribute('aria-live', 'polite');
    this.append(this.#now, this.#list);
    if (this.hasAttribute('brief')) return;
    this.#hire.type = 'button';
    this.#hire.className = 'small hire';
    this.#hire.textContent = 'They want to hire us';
    this.#hire.setAttribute('aria-expanded', 'false');
    this.#hire.addEventListener('click', (event) => {
      if (event.detail > 0) this.#hire.blur();
      this.#openForm(this.#form.hidden);
    });
    this.#build();
    this.append(this.#hire, this.#form);
  }

  show(jobs, shots) {
    const key = JSON.stringify([jobs, shots.map((one) => [one.id, one.name, one.safe, one.inTheBag])]);
    if (key === this.dataset.shown) return;
    this.dataset.shown = key;
    this.#jobs = jobs;
    const { current, list } = jobs;
    const brief = this.hasAttribute('brief');
    this.hidden = brief && list.length < 2;
    this.classList.toggle('many', list.length > 1);
    this.#client.textContent = current;
    const shown = brief ? list.filter((job) => job.client !== current) : list;
    this.#list.replaceChildren(...shown.map((job) => this.#line(job, brief)));
    this.#shots = shots;
    if (!brief) this.#showAgain();
  }

  #line(job, brief) {
    const item = document.createElement('li');
    const here = job.client === this.#jobs.current;
    if (!brief) {
      const words = document.createElement('span');
      words.className = 'words';
      const name = document.createElement('b');
      name.textContent = job.client;
      words.append(name, ' ', factsOf(job));
      item.append(words);
      item.classList.toggle('now', here);
    }
    if (here) return item;
    const key = document.createElement('button');
    key.type = 'button';
    key.className = 'small';
    key.textContent = brief ? `To ${job.client}` : 'Shoot for them';
    key.setAttribute('aria-label', `Shoot for ${job.client} from now on`);
    key.addEventListener('click', (event) => {
      if (event.detail > 0) key.blur();
      this.#send({ switch: job.client });
    });
    item.append(key);
    return item;
  }

  #build() {
    this.#form.hidden = true;
    this.#form.noValidate = true;
    for (const [name, words, hint] of [
      ['client', 'Who', 'a name'],
      ['promised', 'Promised', 'a cover, a double page'],
      ['note', 'Note', 'telephone, by when'],
    ]) {
      const label = document.createElement('label');
      const field = document.createElement('input');
      field.name = name;
      field.placeholder = hint;
      field.autocomplete = 'off';
      label.append(words, ' ', field);
      this.#fields[name] = field;
      this.#form.append(label);
    }
    const again = document.createElement('p');
    again.className = 'ask';
    again.textContent = 'Make again for them';
    this.#again.className = 'again';
    this.#again.setAttribute('role', 'group');
    this.#again.setAttribute('aria-label', again.textContent);
    this.#said.className = 'said';
    this.#said.setAttribute('role', 'status');
    const go = document.createElement('button');
    go.className = 'go';
    go.textContent = 'Shoot for them now';
    this.#form.append(again, this.#again, this.#said, go);
    this.#form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.#submit();
    });
    this.#form.addEventListener('keydown', ({ key }) => {
      if (key !== 'Escape') return;
      this.#openForm(false);
      this.#hire.focus();
    });
  }

  /** The safe shot, and what is in the bag already: they are known to work. */
  #wanted(shot) {
    return this.#chosen.get(shot.id) ?? (shot.safe || shot.inTheBag);
  }

  #showAgain() {
    this.#again.replaceChildren(
      ...this.#shots.map((shot) => {
        const key = document.createElement('button');
        key.type = 'button';
        key.className = 'small';
        key.textContent = shot.name;
        key.setAttribute('aria-pressed', String(this.#wanted(shot)));
        key.addEventListener('click', () => {
          this.#chosen.set(shot.id, !this.#wanted(shot));
          key.setAttribute('aria-pressed', String(this.#wanted(shot)));
        });
        return key;
      }),
    );
  }

  #openForm(open) {
    this.#form.hidden = !open;
    this.#hire.setAttribute('aria-expanded', String(open));
    this.#hire.textContent = open ? 'Not now' : 'They want to hire us';
    this.#said.textContent = '';
    if (!open) return;
    this.#form.scrollIntoView({ block: 'nearest' });
    this.#fields.client.focus();
  }

  #submit() {
    const client = this.#fields.client.value.trim();
    const known = this.#jobs.list.some((job) => job.client === client);
    if (client === '' || known) {
      this.#said.textContent = client === '' ? 'Who is it for?' : `${client} is a client already.`;
      this.#fields.client.focus();
      return;
    }
    const promised = this.#fields.promised.value
      .split(',')
      .map((words) => words.trim())
      .filter((words) => words !== '');
    const shots = this.#shots.filter((shot) => this.#wanted(shot)).map(({ id }) => id);
    this.#send({ open: { client, promised, note: this.#fields.note.value.trim(), shots } });
  }

  /** What was typed stays until it is known to have arrived: see done(). */
  done() {
    if (this.#form.hidden) return;
    this.#form.reset();
    this.#chosen.clear();
    this.#showAgain();
    this.#openForm(false);
  }

  #send(detail) {
    this.dispatchEvent(new CustomEvent('job-do', { detail }));
  }
}

function factsOf({ promised, contact, note, shots, inTheBag, frames }) {
  const count = `${inTheBag} of ${shots} in the bag, ${frames === 1 ? '1 frame' : `${frames} frames`}`;
  return [promised.join(', '), contact, note, count].filter((words) => words !== '').join('; ');
}

customElements.define('job-switch', JobSwitch);
