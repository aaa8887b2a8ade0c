import '/parts/camera-settings/camera-settings.js';
import '/parts/check-list/check-list.js';
import '/parts/flashing-caution/flashing-caution.js';
import '/parts/frame-facts/frame-facts.js';
import '/parts/frame-judge/frame-judge.js';
import '/parts/frame-strip/frame-strip.js';
import '/parts/full-size/full-size.js';
import '/parts/job-switch/job-switch.js';
import '/parts/light-board/light-board.js';
import '/parts/link-states/link-states.js';
import '/parts/live-picture/live-picture.js';
import '/parts/now-shot/now-shot.js';
import '/parts/one-shot/one-shot.js';
import '/parts/order-cut/order-cut.js';
import '/parts/band-notes/band-notes.js';
import '/parts/people-list/people-list.js';
import '/parts/plate-run/plate-run.js';
import '/parts/place-move/place-move.js';
import '/parts/rig-plot/rig-plot.js';
import '/parts/rig-test/rig-test.js';
import '/parts/set-list/set-list.js';
import '/parts/shoot-clock/shoot-clock.js';
import '/parts/shot-directions/shot-directions.js';
import '/parts/solo-round/solo-round.js';
import '/parts/step-key/step-key.js';
import '/parts/test-banner/test-banner.js';
import '/parts/trouble-strip/trouble-strip.js';
import '/parts/work-cautions/work-cautions.js';
import { stayAwake } from '/live/awake.js';
import { Changing, sayOn } from '/live/changing.js';
import { openFeed } from '/live/feed.js';
import { listenToKeys, listenToLetters } from '/live/keys.js';
import { canDo, isNudge } from '/live/lighting.js';
import {
  again as askAgain,
  allFrames,
  clock as askClock,
  flashing as askFlashing,
  frame as askFrame,
  light as askLight,
  plates as askPlates,
  show as askShow,
  shutter as askShutter,
  test as askTest,
} from '/live/messages.js';
import { Rig } from '/live/rig.js';
import { Stepping } from '/live/stepping.js';
import { TimeLeft } from '/live/time.js';
import { letGo, wireAgain, wireKey } from '/live/wire-key.js';
import {
  allShots,
  checksMark,
  countOf,
  keyWords,
  linksMark,
  platesMark,
  shotOf,
  troublesOf,
  waitingWords,
} from '/live/words.js';
import { OrderParts } from '/pages/set/order-parts.js';
import { Panels } from '/pages/set/panels.js';
import { Pictures } from '/pages/set/pictures.js';
import { PlanEditing } from '/pages/set/plan-editing.js';
import { Trying } from '/pages/set/trying.js';

const part = (selector) => document.querySelector(selector);
const clock = part('shoot-clock');
const board = part('light-board');
const rigTest = part('rig-test');
const troubles = part('trouble-strip');
const shutter = part('#shutter');
const said = part('#said');
const strip = part('frame-strip');
const facts = part('frame-facts');
const judge = part('frame-judge');
const fullSize = part('full-size');
const cautions = document.querySelectorAll('flashing-caution');

/** Behind the panel's name, when the band does not see what comes. */
const BAND_MARKS = { all: '', kept: ' ✓', hold: ' ‖' };

const feed = openFeed('crew');
const stepping = new Stepping(feed);
const order = new Changing(feed);
const lighting = new Changing(feed);
const testing = new Changing(feed);
const time = new TimeLeft();
const rig = new Rig(rigTest);
const pictures = new Pictures(part('#large'), part('#swap'));
const planEditing = new PlanEditing(part('plan-desk'), part('#edit-plan'));
const trying = new Trying(part('look-mixer'), [part('#try-looks')]);
const orderParts = new OrderParts({ order, stepping, ask });
const panels = new Panels(part('#switches'), (name) => {
  if (name === 'test') rig.want();
});
let message = null;
/** The frame that somebody looks at; null while the newest is followed. */
let picked = null;
/** Frames that are older than those of the message, once they were asked for. */
let older = [];
let link = null;
/** Where the computed picture is that is shown. */
let prediction = null;
/** The plan's revision that was seen last. */
let planSeen = null;

feed.addEventListener('message', ({ detail }) => {
  if (detail.kind !== 'crew') return;
  message = detail;
  const current = shotOf(message, message.current);
  time.take(message.clock, performance.now());
  showTime();
  part('#title').textContent = message.title;
  part('#simulated').hidden = !message.simulated;
  part('#back').setAttribute('aria-disabled', String(message.position.at === 0));
  part('#again').setAttribute('aria-disabled', String(message.position.at === 0));
  shutter.hidden = !message.canRelease;
  part('step-key').show(keyWords(message));
  part('now-shot').show(current, countOf(message), waitingWords(message));
  part('camera-settings').show(
    message.light.camera,
    message.current,
    message.light.cameraStays,
    message.byHand,
  );
  part('test-banner').show(message.test);
  orderParts.show(message);
  board.show(message.light, current?.camera ?? null);
  rigTest.show(message.test);
  part('plate-run').show(message.plates);
  panels.mark('plates', platesMark(message));
  part('rig-plot').show(message.plot, current?.framing ?? null);
  part('link-states').show(message);
  for (const one of cautions) one.show(message.flashing);
  // Loud where something is to be done about it, else quiet among the cautions.
  part('header flashing-caution').hidden = !message.flashing.allowed;
  part('main flashing-caution').hidden = message.flashing.allowed;
  part('work-cautions').show(message.clock.state);
  panels.mark('links', linksMark(message));
  sayOfPlan(message.plan);
  planEditing.take(message);
  panels.mark('checks', checksMark(message));
  showFrames();
  tell();
});
feed.addEventListener('link', ({ detail }) => {
  if (link !== null && detail.state === 'connected') rig.forget();
  link = detail;
  if (link.state === 'connected') time.forget();
  if (panels.shown === 'test') rig.want();
  tell();
});
wireKey({ key: part('step-key'), back: part('#back'), stepping });
wireAgain({ key: part('step-key'), order });
sayOn(lighting, part('#refused'));
sayOn(testing, part('#refused'));
listenToKeys((what) => stepping.press(what), 'step-key button', false);
listenToLetters((key, held) => {
  if (fullSize.open) return false;
  if (judge.key(key, held) || orderParts.key(key, held)) return true;
  if (key === 'a') {
    if (!held) again();
    return true;
  }
  const shown = panels.shown === 'light';
  if (!shown && !/^[1-9u]$/.test(key)) return false;
  // What a key does must be seen: with another panel up, it first brings the lights.
  panels.show('light');
  return shown || key !== 'u' ? board.key(key, held) : true;
});
strip.addEventListener('pick', ({ detail }) => {
  picked = detail === message.frame?.number ? null : frames().find((one) => one.number === detail);
  showFrames();
});
strip.addEventListener('all', async () => {
  try {
    older = await allFrames();
    showFrames();
  } catch (problem) {
    said.textContent = `✕ ${problem.message}`;
    said.classList.add('failed');
  }
});
judge.addEventListener('follow', () => {
  picked = null;
  showFrames();
});
judge.addEventListener('frame-do', ({ detail }) => doToFrame(detail));
facts.addEventListener('frame-do', ({ detail }) => doToFrame(detail));
facts.addEventListener('show-do', ({ detail }) => ask(() => askShow(detail)));
judge.addEventListener('full-size', ({ detail }) => fullSize.show(detail));
part('#large live-picture').addEventListener('click', ({ target, clientX, clientY }) => {
  const frame = pickedFrame();
  if (frame === null || !pictures.photograph || !(target instanceof HTMLImageElement)) return;
  fullSize.show(frame.number, placeIn(target, clientX, clientY));
});
part('#again').addEventListener('click', (event) => {
  letGo(event);
  again();
});
board.addEventListener('light-do', ({ detail: { wish, held } }) => {
  lighting.press((at) => askLight(at, wish), {
    possible: ({ light }) => canDo(light, wish),
    once: isNudge(wish) ? null : JSON.stringify(wish),
    held,
  });
});
rigTest.addEventListener('test-do', ({ detail }) => testing.press((at) => askTest(at, detail)));
part('plate-run').addEventListener('plates-do', ({ detail }) => ask(() => askPlates(detail)));
part('test-banner').addEventListener('end-test', () => {
  testing.press((at) => askTest(at, { do: 'end' }), { once: 'end' });
});
for (const one of cautions) {
  one.addEventListener('flashing-do', ({ detail }) => ask(() => askFlashing(detail)));
}
clock.addEventListener('clock-do', ({ detail }) => ask(() => askClock(detail)));
clock.addEventListener('click', ({ target, detail }) => {
  if (detail > 0) target.closest('button')?.blur();
});
shutter.addEventListener('click', (event) => {
  letGo(event);
  ask(askShutter);
});
part('#swap').addEventListener('click', (event) => {
  letGo(event);
  pictures.swap();
});
for (const layer of [part('plan-desk'), part('look-mixer')]) {
  layer.addEventListener('closed', () => {
    if (message !== null) showFrames();
  });
}
stayAwake();
tick();

function again() {
  if (message === null || message.position.at === 0) return;
  order.press(askAgain, { once: 'again' });
}

/** Those of the message, then the older ones that were asked for. */
function frames() {
  const oldest = message.frames.at(-1)?.number ?? 1;
  return [...message.frames, ...older.filter((one) => one.number < oldest)];
}

/** As the newest message has it; one that has become too old for it, as it was last seen. */
function pickedFrame() {
  if (picked === null) return message.frame;
  picked = frames().find((one) => one.number === picked.number) ?? picked;
  return picked;
}

function showFrames() {
  const frame = pickedFrame();
  if (frame?.number === message.frame?.number) picked = null;
  // One picture is computed after the other: below the desk none is in the way of the desk's.
  if (!planEditing.open && !trying.open) prediction = message.prediction;
  pictures.show({ ...message, frame, prediction });
  strip.show(frames(), frame?.number ?? null);
  judge.show(frame, message.frame?.number ?? null);
  facts.show({ frame, shots: allShots(message), band: message.band });
  panels.mark('frames', BAND_MARKS[message.band.showing] ?? '');
}

/** Which place of the picture is under the finger, 0 to 1; there are bars beside what does not fit. */
function placeIn(image, clientX, clientY) {
  const box = image.getBoundingClientRect();
  const scale = Math.min(box.width / image.naturalWidth, box.height / image.naturalHeight);
  const at = (client, start, size, natural) =>
    Math.min(1, Math.max(0, (client - start - (size - natural * scale) / 2) / (natural * scale)));
  return {
    x: at(clientX, box.left, box.width, image.naturalWidth),
    y: at(clientY, box.top, box.height, image.naturalHeight),
  };
}

/** An older frame is not in the answer, so the older ones are asked for again. */
async function doToFrame(wish) {
  await ask(() => askFrame(wish));
  if (message.frames.some((one) => one.number === wish.number)) return;
  try {
    older = await allFrames();
    showFrames();
  } catch {
    // what was pressed has been carried out, or was said not to be
  }
}

/** What came of a change outside is said once, where the desk does not say it. */
function sayOfPlan({ revision, says }) {
  const isNew = planSeen !== null && planSeen !== revision;
  planSeen = revision;
  if (!isNew || says === '' || planEditing.open) return;
  said.textContent = says;
  said.classList.remove('failed');
}

/** @returns {Promise<boolean>} whether it was done */
async function ask(question) {
  try {
    const answer = await question();
    if (answer !== null) feed.offer(answer);
    said.textContent = '';
    said.classList.remove('failed');
    return true;
  } catch (problem) {
    said.textContent = `✕ ${problem.message}`;
    said.classList.add('failed');
    return false;
  }
}

function tell() {
  troubles.show(troublesOf(message, link, null));
}

function tick() {
  showTime();
  setTimeout(tick, 200);
}

function showTime() {
  const seconds = time.seconds(performance.now());
  if (seconds !== null) clock.show(message.clock.state, seconds);
}
