import { Connection } from './connection.js';
import { SampleFeed, sampleName } from './sample.js';

/**
 * What a page listens to: the server, or a sample.
 *
 * @param {'crew'|'band'} channel
 */
export function openFeed(channel) {
  return sampleName === null ? new Connection(`/push/${channel}`) : new SampleFeed();
}
