/**
 * The push from the server: one WebSocket, one JSON a message, the newest replaces the former.
 *
 * Events:
 *   'message'  detail: the message (kind 'crew' or 'band')
 *   'link'     detail: {state: 'connected'|'lost'|'refused', sinceMillis}; sinceMillis is this
 *              device's own clock when the state began
 *
 * A line that is dead but not closed is noticed only if the server sends {"kind":"alive"} from time
 * to time: after the first of them, silence for ALIVE_LIMIT_MILLIS counts as lost.
 */
export const BACKOFF_FIRST_MILLIS = 300;
export const BACKOFF_MOST_MILLIS = 2000;
const OPEN_LIMIT_MILLIS = 5000;
const ALIVE_LIMIT_MILLIS = 7000;
// Close codes: 1008 is 'policy violation' in RFC 6455, 7.4.1.
const REFUSED_CLOSE_CODE = 1008;

export class Connection extends EventTarget {
  #path;
  #socket = null;
  #backoffMillis = BACKOFF_FIRST_MILLIS;
  #retry = null;
  #openLimit = null;
  #aliveLimit = null;
  #revision = -Infinity;
  #state = null;

  /** @param {string} path '/push/crew' or '/push/band' */
  constructor(path) {
    super();
    this.#path = path;
    addEventListener('online', () => this.#now());
    addEventListener('pageshow', () => this.#now());
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') this.#now();
    });
    this.#open();
  }

  /** A message that came another way, such as the answer to a press. */
  offer(message) {
    this.#take(message);
  }

  #open() {
    const scheme = location.protocol === 'https:' ? 'wss:' : 'ws:';
    const socket = new WebSocket(`${scheme}//${location.host}${this.#path}`);
    this.#socket = socket;
    let opened = false;
    this.#openLimit = setTimeout(() => this.#lost(socket, opened), OPEN_LIMIT_MILLIS);
    socket.addEventListener('open', () => {
      if (socket !== this.#socket) return;
      opened = true;
      clearTimeout(this.#openLimit);
      this.#backoffMillis = BACKOFF_FIRST_MILLIS;
      // A server started afresh may count from a lower number.
      this.#revision = -Infinity;
      this.#say('connected');
    });
    socket.addEventListener('message', (event) => {
      if (socket !== this.#socket) return;
      let message;
      try {
        message = JSON.parse(event.data);
      } catch {
        console.warn('a message that is not JSON was left out');
        return;
      }
      if (this.#aliveLimit !== null || message.kind === 'alive') this.#heard(socket);
      this.#take(message);
    });
    socket.addEventListener('close', (event) => {
      this.#lost(socket, opened, event.code === REFUSED_CLOSE_CODE);
    });
  }

  #take(message) {
    if (message === null || typeof message !== 'object' || message.kind === 'alive') return;
    if (typeof message.revision === 'number') {
      if (message.revision < this.#revision) return;
      this.#revision = message.revision;
    }
    this.dispatchEvent(new CustomEvent('message', { detail: message }));
  }

  #heard(socket) {
    clearTimeout(this.#aliveLimit);
    this.#aliveLimit = setTimeout(() => this.#lost(socket, true), ALIVE_LIMIT_MILLIS);
  }

  #lost(socket, opened, refused = false) {
    if (socket !== this.#socket) return;
    this.#socket = null;
    clearTimeout(this.#openLimit);
    clearTimeout(this.#aliveLimit);
    this.#aliveLimit = null;
    socket.close();
    if (refused) this.#say('refused');
    else if (this.#state !== 'refused') this.#say('lost');
    if (!opened) this.#askWhy();
    this.#retry = setTimeout(() => this.#open(), this.#backoffMillis);
    this.#backoffMillis = Math.min(this.#backoffMillis * 1.6, BACKOFF_MOST_MILLIS);
  }

  /** A WebSocket does not tell the status of a handshake that was turned down; a plain GET does. */
  async #askWhy() {
    try {
      const { status } = await fetch(this.#path, { cache: 'no-store' });
      if (this.#state === 'connected') return;
      this.#say(status === 401 || status === 403 ? 'refused' : 'lost');
    } catch {
      if (this.#state !== 'connected') this.#say('lost');
    }
  }

  #now() {
    if (this.#socket !== null) return;
    clearTimeout(this.#retry);
    this.#open();
  }

  #say(state) {
    if (state === this.#state) return;
    this.#state = state;
    this.dispatchEvent(new CustomEvent('link', { detail: { state, sinceMillis: Date.now() } }));
  }
}
