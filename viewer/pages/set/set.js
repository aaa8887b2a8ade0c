import '/parts/link-states/link-states.js';
import '/parts/live-picture/live-picture.js';
import '/parts/now-shot/now-shot.js';
import '/parts/rig-plot/rig-plot.js';
import '/parts/set-list/set-list.js';
import '/parts/shoot-clock/shoot-clock.js';
import '/parts/step-key/step-key.js';
import '/parts/trouble-strip/trouble-strip.js';
import '/parts/work-cautions/work-cautions.js';
import { stayAwake } from '/live/awake.js';
import { openFeed } from '/live/feed.js';
import { listenToKeys } from '/live/keys.js';
import { clock as askClock, shutter as askShutter } from '/live/messages.js';
import { Stepping } from '/live/stepping.js';
import { TimeLeft } from '/live/time.js';
import { letGo, wireKey } from '/live/wire-key.js';
import { countOf, keyWords, shotOf, troublesOf } from '/live/words.js';
import { Pictures } from '/pages/set/pictures.js';

const part = (selector) => document.querySelector(selector);
const clock = part('shoot-clock');
const troubles = part('trouble-strip');
const shutter = part('#shutter');
const said = part('#said');

const feed = openFeed('crew');
const stepping = new Stepping(feed);
const time = new TimeLeft();
const pictures = new Pictures(part('#large'), part('#swap'));
let message = null;
let link = null;

feed.addEventListener('message', ({ detail }) => {
  if (detail.kind !== 'crew') return;
  const moved = message === null || message.current !== detail.current;
  message = detail;
  const current = shotOf(message, message.current);
  time.take(message.clock, performance.now());
  part('#title').textContent = message.title;
  part('#simulated').hidden = !message.simulated;
  part('#back').setAttribute('aria-disabled', String(message.position.at === 0));
  shutter.hidden = !message.simulated;
  part('step-key').show(keyWords(message));
  if (moved) part('now-shot').show(current, countOf(message));
  part('set-list').show(message);
  part('rig-plot').show(message.plot, current?.framing ?? null);
  part('link-states').show(message);
  part('work-cautions').show(message.clock.state);
  pictures.show(message);
  tell();
});
feed.addEventListener('link', ({ detail }) => {
  link = detail;
  if (link.state === 'connected') time.forget();
  tell();
});
wireKey({ key: part('step-key'), back: part('#back'), stepping });
listenToKeys((what) => stepping.press(what), 'step-key button');
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
stayAwake();
tick();

async function ask(question) {
  try {
    const answer = await question();
    if (answer !== null) feed.offer(answer);
    said.textContent = '';
    said.classList.remove('failed');
  } catch (problem) {
    said.textContent = `✕ ${problem.message}`;
    said.classList.add('failed');
  }
}

function tell() {
  troubles.show(troublesOf(message, link, ['lights', 'camera']));
}

function tick() {
  const seconds = time.seconds(performance.now());
  if (seconds !== null) clock.show(message.clock.state, seconds);
  setTimeout(tick, 200);
}
