/** What the crew's pages say about a crew message. Pure. */

/** The shot with this id, in the running order or left out of it, or null. */
export function shotOf(message, id) {
  return allShots(message).find((shot) => shot.id === id) ?? null;
}

/** Those of the running order, then those left out of it. */
export function allShots({ shots, leftOut }) {
  return [...shots, ...leftOut];
}

/** Its place in the running order, from 1; 0 if it is left out. */
export function placeOf(message, id) {
  return message.shots.findIndex((shot) => shot.id === id) + 1;
}

/** How people stand for the shot with this id, or null. */
export function directionOf(message, id) {
  return message.directions[id] ?? null;
}

/** Names of the shots that do not fit. */
export function fallingOff({ shots }) {
  return shots.filter((shot) => shot.fallsOff).map((shot) => shot.name);
}

/** Behind the name of the checks: what is wrong, else what there is to look at. */
export function checksMark({ checks }) {
  if (checks.wrong > 0) return ` ✕${checks.wrong}`;
  return checks.look > 0 ? ` ?${checks.look}` : '';
}

/** '2 of 9, take 2', or '' before the first. */
export function countOf({ position, take }) {
  if (position.at === 0) return '';
  return `${position.at} of ${position.of}${take > 1 ? `, take ${take}` : ''}`;
}

/** What there is to say before the first shot. What a press does stands on the key. */
export function waitingWords({ light }) {
  if (light.what === 'test') return ['A test is on'];
  if (light.what === 'plate') return ['Plates are being taken'];
  if (light.what === 'work light') return ['Work light is on, until the first press'];
  return ['The first look is on: test it'];
}

/** What stands on the big key. */
export function keyWords(message) {
  const next = shotOf(message, message.coming);
  if (next === null) {
    return {
      label: countOf(message),
      name: 'That was the last one',
      detail:
        message.test === null
          ? 'Nothing comes after. One back shows the one before.'
          : 'Nothing comes after. ‘End the test’ puts the look back on.',
      ends: true,
    };
  }
  if (message.position.at === 0) {
    return {
      label: endsFirst(message, 'Press when the band walks in'),
      name: `Start with: ${next.name}`,
      detail: message.light.what === 'work light' ? `Work light off, look “${next.look}” on` : '',
      ends: false,
    };
  }
  return { label: endsFirst(message, 'Next'), name: next.name, detail: peopleOf(next), ends: false };
}

/** A press that goes on gives up what is under way. */
function endsFirst({ test, light }, words) {
  if (light.what === 'plate') return `Gives the plates up. ${words}`;
  return test === null ? words : `Ends the test. ${words}`;
}

function peopleOf(shot) {
  return shot.people.length === 1
    ? `${shot.people[0]} alone`
    : `${shot.people.length} people, ${shot.arrangement}`;
}

/**
 * What must be seen at once.
 *
 * @param {object|null} message the newest crew message
 * @param {{state: string, sinceMillis: number}|null} link to the server
 * @param {string[]|null} watched names of the links that matter on this page; null for all
 */
export function troublesOf(message, link, watched) {
  const troubles = [];
  if (link?.state === 'refused') {
    troubles.push({
      head: 'Not allowed from here.',
      mend: 'Open the link printed in the terminal of the computer.',
    });
  } else if (link?.state === 'lost') {
    troubles.push({
      head: 'No connection to the computer',
      mend: `since ${timeOfDay(link.sinceMillis)}. Trying again by itself; what stands here may be old.`,
    });
  }
  if (watched === null && message !== null && message.plan.problem !== '') {
    troubles.push({ head: 'The plan goes on as it was:', mend: message.plan.problem });
  }
  for (const gear of message?.links ?? []) {
    if (gear.state === 'up' || watched?.includes(gear.name) === false) continue;
    troubles.push({ head: HEADS[gear.name] ?? `${gear.name}: ${gear.state}.`, mend: gear.says });
  }
  return troubles;
}

/** Behind the name of the plates: how they stand, where somebody is to look. */
export function platesMark({ plates }) {
  if (plates.state === 'taking') return ' ●';
  if (plates.state === 'stale' || plates.state === 'useless') return ' ✕';
  return plates.question === '' ? '' : ' ?';
}

/** Behind the name of the links: what is down, else how many notes there are. */
export function linksMark({ links, notes }) {
  if (links.some((one) => one.state !== 'up')) return ' ✕';
  return notes.length === 0 ? '' : ` (${notes.length})`;
}

const HEADS = {
  lights: 'The light line is down:',
  network: 'The network output is down:',
  camera: 'No pictures come in:',
  copies: 'Originals are not copied:',
};

function timeOfDay(millis) {
  const at = new Date(millis);
  return [at.getHours(), at.getMinutes(), at.getSeconds()]
    .map((part) => String(part).padStart(2, '0'))
    .join(':');
}
