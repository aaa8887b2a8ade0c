import '/parts/flashing-caution/flashing-caution.js';
import '/parts/job-switch/job-switch.js';
import '/parts/look-picture/look-picture.js';
import '/parts/now-shot/now-shot.js';
import '/parts/one-shot/one-shot.js';
import '/parts/order-cut/order-cut.js';
import '/parts/place-move/place-move.js';
import '/parts/rig-test/rig-test.js';
import '/parts/shoot-clock/shoot-clock.js';
import '/parts/shot-directions/shot-directions.js';
import '/parts/solo-round/solo-round.js';
import '/parts/step-key/step-key.js';
import '/parts/test-banner/test-banner.js';
import '/parts/trouble-strip/trouble-strip.js';
import { stayAwake } from '/live/awake.js';
import { Changing, sayOn } from '/live/changing.js';
import { openFeed } from '/live/feed.js';
import { listenToKeys, listenToLetters } from '/live/keys.js';
import {
  again as askAgain,
  cut as askCut,
  flashing as askFlashing,
  job as askJob,
  jump as askJump,
  jumpToShot as askJumpToShot,
  place as askPlace,
  solos as askSolos,
  test as askTest,
} from '/live/messages.js';
import { Rig } from '/live/rig.js';
import { Stepping } from '/live/stepping.js';
import { TimeLeft } from '/live/time.js';
import { letGo, wireAgain, wireKey } from '/live/wire-key.js';
import {
  allShots,
  countOf,
  directionOf,
  fallingOff,
  keyWords,
  placeOf,
  shotOf,
  troublesOf,
  waitingWords,
} from '/live/words.js';

const part = (selector) => document.querySelector(selector);
const clock = part('shoot-clock');
const key = part('step-key');
const troubles = part('trouble-strip');
const back = part('#back');
const again = part('#again');
const lookThrough = part('#look-through');
const caution = part('flashing-caution');
const rigTest = part('rig-test');
const cutting = part('order-cut');
const whom = part('#whom');
const shoot = part('#shoot');
const jobs = part('job-switch');
const drawing = part('#drawing');

const feed = openFeed('crew');
const stepping = new Stepping(feed);
const order = new Changing(feed);
/** Whom one shoots for, and where: no change of the shot. */
const asking = new Changing(feed);
const time = new TimeLeft();
const rig = new Rig(rigTest);
let message = null;
let link = null;
/** The shot that was shown last. */
let shown = null;

feed.addEventListener('message', ({ detail }) => {
  if (detail.kind !== 'crew') return;
  message = detail;
  const before = message.position.at === 0;
  if (shown !== null && shown !== message.current) cutting.toggle(false);
  shown = message.current;
  time.take(message.clock, performance.now());
  showTime();
  key.show(keyWords(message));
  const shot = shotOf(message, message.current);
  part('now-shot').show(shot, countOf(message), waitingWords(message));
  showDirections();
  showShoot();
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
sayOn(asking, part('#refused'));
listenToKeys((what) => stepping.press(what), 'step-key button');
listenToLetters((letter, held) => {
  if (!held && (cutting.key(letter) || part('solo-round').key(letter))) return true;
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
cutting.addEventListener('cut-do', ({ detail }) => {
  order.press((at) => askCut(at, detail), { once: JSON.stringify(detail) });
});
cutting.addEventListener('opened', ({ detail }) => {
  if (!detail) return;
  openShoot(false);
  openDrawing(false);
});
part('solo-round').addEventListener('solos-do', () => {
  order.press((at) => askSolos(at), { once: 'solos' });
});
part('one-shot').addEventListener('go-one', ({ detail }) => {
  stepping.ours();
  order.press((at) => jumpTo(at, detail), { once: 'one' });
});
drawing.addEventListener('click', (event) => {
  letGo(event);
  openDrawing(drawing.getAttribute('aria-pressed') === 'false');
});
whom.addEventListener('click', (event) => {
  letGo(event);
  openShoot(shoot.hidden);
});
jobs.addEventListener('job-do', ({ detail }) => {
  asking.press(() => askJob(detail), { once: JSON.stringify(detail) });
});
part('place-move').addEventListener('place-do', ({ detail }) => {
  asking.press(() => askPlace(detail), { once: detail });
});
asking.addEventListener('answered', () => {
  jobs.done();
  openShoot(false);
});
stayAwake();
tick();

function jumpTo(at, id) {
  const to = placeOf(message, id);
  return to === 0 ? askJumpToShot(at, id) : askJump(at, to);
}

function showDirections() {
  const { current, coming } = message;
  drawing.hidden = directionOf(message, current) === null;
  if (drawing.hidden) openDrawing(false);
  part('#now-directions').show(directionOf(message, current), shotOf(message, current));
  const next = shotOf(message, coming);
  part('#next-directions').show(directionOf(message, coming), next);
  part('#next-look').show(next?.picture ?? null, next?.name ?? '');
}

function showShoot() {
  const { cut, solos, places } = message;
  cutting.show(cut, fallingOff(message));
  part('solo-round').show(solos);
  jobs.show(message.jobs, allShots(message));
  part('place-move').show(places);
  const many = message.jobs.list.length > 1;
  whom.textContent = many ? `For ${message.jobs.current}` : 'Jobs, places';
  whom.classList.toggle('many', many);
  part('one-shot').show(cut, message.current);
  part('#place-says').textContent = places.says;
}

/** How people stand, so large that it is read from two metres; the key gives room. */
function openDrawing(open) {
  drawing.setAttribute('aria-pressed', String(open));
  part('main').classList.toggle('drawing', open);
  if (open) openShoot(false);
}

/** Over what is shown above the key, never over the key; that gives room. */
function openShoot(open) {
  shoot.hidden = !open;
  part('main').classList.toggle('asking', open);
  whom.setAttribute('aria-expanded', String(open));
  if (!open) return;
  cutting.toggle(false);
  openDrawing(false);
}

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
