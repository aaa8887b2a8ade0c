import '/parts/now-shot/now-shot.js';
import '/parts/shoot-clock/shoot-clock.js';
import '/parts/step-key/step-key.js';
import '/parts/trouble-strip/trouble-strip.js';
import { stayAwake } from '/live/awake.js';
import { openFeed } from '/live/feed.js';
import { listenToKeys } from '/live/keys.js';
import { Stepping } from '/live/stepping.js';
import { TimeLeft } from '/live/time.js';
import { wireKey } from '/live/wire-key.js';
import { countOf, keyWords, shotOf, troublesOf } from '/live/words.js';

const clock = document.querySelector('shoot-clock');
const now = document.querySelector('now-shot');
const key = document.querySelector('step-key');
const troubles = document.querySelector('trouble-strip');
const back = document.querySelector('#back');
const simulated = document.querySelector('#simulated');

const feed = openFeed('crew');
const stepping = new Stepping(feed);
const time = new TimeLeft();
let message = null;
let link = null;

feed.addEventListener('message', ({ detail }) => {
  if (detail.kind !== 'crew') return;
  const moved = message === null || message.current !== detail.current;
  message = detail;
  time.take(message.clock, performance.now());
  key.show(keyWords(message));
  if (moved) now.show(shotOf(message, message.current), countOf(message));
  simulated.hidden = !message.simulated;
  back.setAttribute('aria-disabled', String(message.position.at === 0));
  tell();
});
feed.addEventListener('link', ({ detail }) => {
  link = detail;
  if (link.state === 'connected') time.forget();
  tell();
});
wireKey({ key, back, stepping });
listenToKeys((what) => stepping.press(what), 'step-key button');
stayAwake();
tick();

function tell() {
  troubles.show(troublesOf(message, link, ['lights']));
}

function tick() {
  const seconds = time.seconds(performance.now());
  if (seconds !== null) clock.show(message.clock.state, seconds);
  setTimeout(tick, 200);
}
