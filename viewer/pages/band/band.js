import '/parts/live-picture/live-picture.js';
import { stayAwake } from '/live/awake.js';
import { openFeed } from '/live/feed.js';
import { pictureUrl } from '/live/sample.js';

const picture = document.querySelector('live-picture');
const waiting = document.querySelector('#waiting');
const title = document.querySelector('#title');
const rehearsal = document.querySelector('#rehearsal');
const link = document.querySelector('#link');

const SIGNS = {
  connected: '',
  lost: '✕ no connection, trying again',
  refused: '✕ open the link from the computer again',
};

const feed = openFeed('band');
feed.addEventListener('message', ({ detail: message }) => {
  if (message.kind !== 'band') return;
  title.textContent = message.title;
  rehearsal.hidden = !message.simulated;
  const { frame } = message;
  // The last picture stays when there is none to take its place.
  if (frame !== null) picture.show(pictureUrl(frame.url), `Picture ${frame.number}`);
});
picture.addEventListener('shown', () => {
  waiting.hidden = true;
});
feed.addEventListener('link', ({ detail }) => {
  link.textContent = SIGNS[detail.state];
  link.hidden = detail.state === 'connected';
});
stayAwake();
