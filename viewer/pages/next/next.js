import '/parts/flashing-caution/flashing-caution.js';
import '/parts/now-shot/now-shot.js';
import '/parts/rig-test/rig-test.js';
import '/parts/shoot-clock/shoot-clock.js';
import '/parts/step-key/step-key.js';
import '/parts/test-banner/test-banner.js';
import '/parts/trouble-strip/trouble-strip.js';
import { stayAwake } from '/live/awake.js';
import { Changing } from '/live/changing.js';
import { openFeed } from '/live/feed.js';
import { listenToKeys, listenToLetters } from '/live/keys.js';
import {
  again as askAgain,
  flashing as askFlashing,
  test as askTest,
} from '/live/messages.js';
import { Rig } from '/live/rig.js';
import { Stepping } from '/live/stepping.js';
import { TimeLeft } from '/live/time.js';
import { letGo, wireAgain, wireKey } from '/live/wire-key.js';
import { countOf, keyWords, shotOf, troublesOf, waitingWords } from '/live/words.js';

const part = (selector) => document.querySelector(selector);
const clock = part('shoot-clock');
const key = part('step-key');
const troubles = part('trouble-strip');
const back = part('#back');
const again = part('#again');
const lookThrough = part('#look-through');
const caution = part('flashing-caution');
const rigTest = part('rig-test');

const feed = openFeed('crew');
const stepping = new Stepping(feed);
const order = new Changing(feed);
const time = new TimeLeft();
const rig = new Rig(rigTest);
let message = null;
let link = null;

feed.addEventListener('message', ({ detail }) => {
  if (detail.kind !== 'crew') return;
  message = detail;
  const before = message.position.at === 0;
  time.take(message.clock, performance.now());
  showTime();
  key.show(keyWords(message));
  const shot = shotOf(message, message.current);
  part('now-shot').show(shot, countOf(message), waitingWords(message));
  part('#by-hand').textContent = message.byHand.join('; ');
  part('#simulated').hidden = !message.simulated;
  back.setAttribute('aria-disabled', String(before));
  again.hidden = before;
  lookThrough.hidden = !before;
  if (!before) openTest(false);
  part('test-banner').show(message.test);
  rigTest.show(message.test);
  caution.show(message.flashing);
  // During the shoot only what is out of the ordinary takes room.
  caution.hidden = !before && !(message.flashing.allowed && message.flashing.acknowledged);
  tell();
});
feed.addEventListener('link', ({ detail }) => {
  if (link !== null && detail.state === 'connected') rig.forget();
  link = detail;
  if (link.state === 'connected') time.forget();
  if (!rigTest.hidden) rig.want();
  tell();
});
wireKey({ key, back, stepping });
wireAgain({ key, order });
listenToKeys((what) => stepping.press(what), 'step-key button');
listenToLetters((letter, held) => {
  if (letter !== 'a') return false;
  if (!held) sameAgain();
  return true;
});
again.addEventListener('click', (event) => {
  letGo(event);
  sameAgain();
});
lookThrough.addEventListener('click', (event) => {
  letGo(event);
  openTest(rigTest.hidden);
});
rigTest.addEventListener('test-do', ({ detail }) => order.press((at) => askTest(at, detail)));
part('test-banner').addEventListener('end-test', () => {
  order.press((at) => askTest(at, { do: 'end' }), { once: 'end' });
});
caution.addEventListener('flashing-do', ({ detail }) => order.press(() => askFlashing(detail)));
stayAwake();
tick();

function sameAgain() {
  if (message === null || message.position.at === 0) return;
  order.press(askAgain, { once: 'again' });
}

/** The rig test takes the place of the shot, and most of the key's: there is time before the window. */
function openTest(open) {
  rigTest.hidden = !open;
  part('.now').hidden = open;
  part('main').classList.toggle('testing', open);
  lookThrough.setAttribute('aria-expanded', String(open));
  lookThrough.textContent = open ? 'Close the test' : 'Test the rig';
  if (open) rig.want();
}

function tell() {
  troubles.show(troublesOf(message, link, ['lights', 'network']));
}

function tick() {
  showTime();
  setTimeout(tick, 200);
}

function showTime() {
  const seconds = time.seconds(performance.now());
  if (seconds !== null) clock.show(message.clock.state, seconds);
}
