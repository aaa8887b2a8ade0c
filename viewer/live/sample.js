/**
 * A page without a server: ?sample=NAME shows /samples/NAME.json in place of the push, and pictures
 * that only a server has get a stand-in.
 */
const name = new URLSearchParams(location.search).get('sample');

/** The sample's name, or null when the page is live. */
export const sampleName = name !== null && /^[a-z0-9-]+$/.test(name) ? name : null;

/** Same events as Connection. */
export class SampleFeed extends EventTarget {
  constructor() {
    super();
    document.title = `Sample ${sampleName}: ${document.title}`;
    this.#load();
  }

  offer(message) {
    this.dispatchEvent(new CustomEvent('message', { detail: message }));
  }

  async #load() {
    const answer = await fetch(`/samples/${sampleName}.json`);
    const message = await answer.json();
    const detail = { state: 'connected', sinceMillis: Date.now() };
    this.dispatchEvent(new CustomEvent('link', { detail }));
    this.offer(message);
  }
}

/** Where a picture of a message is to be had. */
export function pictureUrl(url) {
  if (sampleName === null || url === null) return url;
  if (url.startsWith('/frames/')) return '/samples/frame.svg';
  if (url.startsWith('/prediction/') || url.startsWith('/suggested/')) return '/samples/prediction.svg';
  return url;
}

/** The same of a look before it is made, small. */
export function smallPictureUrl(url) {
  return sampleName === null ? `${url}&size=small` : pictureUrl(url);
}

/** Where the small picture of a frame is to be had. */
export function thumbUrl({ number, url }) {
  return sampleName === null ? url.replace('/frames/', '/thumbs/') : pictureUrl(`/frames/${number}`);
}

/** Where a part of a frame's original is to be had. */
export function fullSizeUrl(number, { x, y }, { width, height }) {
  if (sampleName !== null) return pictureUrl(`/frames/${number}`);
  return `/originals/${number}.jpg?x=${x.toFixed(4)}&y=${y.toFixed(4)}&w=${width}&h=${height}`;
}
