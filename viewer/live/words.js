/** What the crew's pages say about a crew message. Pure. */

/** The shot with this id, or null. */
export function shotOf(message, id) {
  return message.shots.find((shot) => shot.id === id) ?? null;
}

/** '2 of 9', or '' before the first. */
export function countOf({ position }) {
  return position.at === 0 ? '' : `${position.at} of ${position.of}`;
}

/** What stands on the big key. */
export function keyWords(message) {
  const next = shotOf(message, message.coming);
  if (next === null) {
    return {
      label: countOf(message),
      name: 'That was the last one',
      detail: 'Nothing comes after. One back shows the one before.',
      ends: true,
    };
  }
  if (message.position.at === 0) {
    return {
      label: 'Press when the band walks in',
      name: `Start with: ${next.name}`,
      detail: '',
      ends: false,
    };
  }
  return { label: 'Next', name: next.name, detail: peopleOf(next), ends: false };
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
 * @param {string[]} watched names of the links that matter on this page
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
  for (const gear of message?.links ?? []) {
    if (gear.state === 'up' || !watched.includes(gear.name)) continue;
    troubles.push({ head: HEADS[gear.name] ?? `${gear.name}: ${gear.state}.`, mend: gear.says });
  }
  return troubles;
}

const HEADS = {
  lights: 'The light line is down:',
  camera: 'No pictures come in:',
};

function timeOfDay(millis) {
  const at = new Date(millis);
  return [at.getHours(), at.getMinutes(), at.getSeconds()]
    .map((part) => String(part).padStart(2, '0'))
    .join(':');
}
