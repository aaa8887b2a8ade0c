import { after } from './document.js';
import { editPlan, plan } from './messages.js';

/**
 * The plan and its edits on their way. One is on its way, the others wait; of a key that is pressed
 * again and again only the newest waits. What is shown is the plan as it will be, so that presses add
 * up; when an edit is refused, it is the plan of the server again.
 *
 * Events: 'plan' (there is something else to show), 'refused' (detail: {words, about}: what the edit
 * was given as about).
 */
export class Planning extends EventTarget {
  #answer = null;
  #draft = null;
  #waiting = [];
  #busy = false;
  #wanted = null;

  /** The newest answer of the server, null before the first. */
  get answer() {
    return this.#answer;
  }

  /** The document with the edits that are on their way. */
  get draft() {
    return this.#draft;
  }

  get busy() {
    return this.#busy;
  }

  /**
   * The server has this plan; it is fetched if it is another one.
   *
   * @param {{revision: number, problem: string}} told as in a crew message
   */
  offered(told) {
    this.#wanted = told;
    if (!this.#busy && this.#answer !== null && !this.#has(told)) this.load();
  }

  load() {
    return this.#ask(plan, null);
  }

  /**
   * @param {object[]} edits as in document.js; none is nothing
   * @param {object} how
   * @param {string|((edit: object) => string)} how.says words for undo, or how to make them of the edit
   * @param {string|null} how.merge one name for presses of which only the newest matters
   * @param {object|null} how.about given back if it is refused
   */
  edit(edits, { says = '', merge = null, about = null } = {}) {
    if (edits.length === 0 || this.#draft === null) return;
    this.#draft = after(this.#draft, edits);
    const last = this.#waiting.at(-1);
    if (merge !== null && last?.merge === merge && sets(last) && sets({ edits })) {
      // Nobody has seen what was written in between.
      const [{ value, path }] = edits;
      last.edits = [{ ...last.edits[0], value, path }];
    } else {
      this.#waiting.push({ edits, says, merge, about });
    }
    this.#tell();
    this.#next();
  }

  undo() {
    this.#waiting.push({ back: { undo: true }, about: null });
    this.#next();
  }

  redo() {
    this.#waiting.push({ back: { redo: true }, about: null });
    this.#next();
  }

  #next() {
    if (this.#busy || this.#waiting.length === 0) return;
    const { edits, says, back, about } = this.#waiting.shift();
    const words = typeof says === 'function' ? says(edits[0]) : says;
    this.#ask(() => editPlan(back ?? { edits, says: words }), about);
  }

  async #ask(question, about) {
    if (this.#busy) return;
    this.#busy = true;
    this.#tell();
    try {
      const answer = await question();
      if (answer?.document !== undefined) this.#answer = answer;
      else if (this.#answer !== null) this.#answer = { ...this.#answer, document: this.#draft };
      this.#busy = false;
      this.#redraft();
      this.#next();
      this.#catchUp();
    } catch (problem) {
      // What waits was meant for a plan that did not come.
      const reload = question !== plan;
      this.#waiting = [];
      this.#busy = false;
      this.#redraft();
      this.dispatchEvent(new CustomEvent('refused', { detail: { words: problem.message, about } }));
      if (reload) this.#quietly();
    }
  }

  /** Somebody else may have written there. */
  async #quietly() {
    try {
      const answer = await plan();
      if (this.#busy || answer?.document === undefined) return;
      this.#answer = answer;
      this.#redraft();
    } catch {
      // that there is no connection was said already
    }
  }

  #catchUp() {
    if (this.#busy || this.#wanted === null) return;
    const wanted = this.#wanted;
    this.#wanted = null;
    // An older one was on its way while the newer was being written.
    if (wanted.revision > this.#answer.revision) this.load();
  }

  #has({ revision, problem = '' }) {
    return this.#answer.revision === revision && (this.#answer.problem ?? '') === problem;
  }

  #redraft() {
    const edits = this.#waiting.flatMap((one) => one.edits ?? []);
    this.#draft = this.#answer === null ? null : after(this.#answer.document, edits);
    this.#tell();
  }

  #tell() {
    this.dispatchEvent(new CustomEvent('plan'));
  }
}

const sets = ({ edits }) => edits?.length === 1 && edits[0].op === 'set';
