import { after, at, same, setting, stepTo } from './document.js';
import { arrangementOf, fitted, writtenAs } from './standing.js';

/** What a plan document says, and edits that keep its names together. Pure. */

/** Steps between first slots, so that addresses are easy to keep in mind (common practice). */
const SLOT_STEP = 10;
const SLOT_MOST = 512;
export const EVERYBODY = 'all';

export const namesOf = (list) => (list ?? []).map((one) => one.name).filter((name) => typeof name === 'string');

/** Every place with its path; a plan has one under 'place' or several under 'places'. */
export function placesOf(document) {
  if (Array.isArray(document.places)) {
    return document.places.map((place, i) => ({ place, path: ['places', stepTo(document.places, i)] }));
  }
  return document.place === undefined ? [] : [{ place: document.place, path: ['place'] }];
}

/** Where the light that is there already is written: one house may be that of all places. */
export function housePath(document, { place, path }) {
  const own = place.house !== undefined || (document.house === undefined && path.length > 1);
  return own || path.length > 1 ? [...path, 'house'] : ['house'];
}

/** Who is in a shot, left to right. */
export function peopleOf(document, shot) {
  return Array.isArray(shot?.people) ? shot.people : namesOf(document.people);
}

/** The id of a shot's picture: of a round of solos, that of its first. */
export function idOf(document, shot) {
  if (shot.solos === true) {
    const [first] = peopleOf(document, shot);
    return first === undefined ? null : `${shot.id ?? 'solo'}-${slug(first)}`;
  }
  return shot.id ?? (slug(shot.name ?? '') || null);
}

/** Lower case, accents gone, everything else a hyphen. */
export function slug(name) {
  return name
    .normalize('NFD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 60);
}

/** How many slots a light of the rig takes; 1 if that is not known. */
export function slotsOf(known, { fixture, mode }) {
  const modes = known?.fixtures?.find((one) => one.id === fixture)?.modes ?? [];
  return (modes.find((one) => one.id === mode) ?? modes[0])?.slots ?? 1;
}

/** A first slot where so many are free, or null; `but` is the light that is to have it. */
export function freeSlot(document, known, { universe = 1, slots, but = null }) {
  const taken = (document.rig ?? [])
    .filter((light) => light.name !== but && (light.universe ?? 1) === universe)
    .map((light) => [light.slot, light.slot + slotsOf(known, light)]);
  const free = (slot) =>
    slot + slots - 1 <= SLOT_MOST && taken.every(([from, to]) => slot >= to || slot + slots <= from);
  for (const step of [SLOT_STEP, 1]) {
    for (let slot = 1; slot <= SLOT_MOST; slot += step) if (free(slot)) return slot;
  }
  return null;
}

export function renamePerson(document, index, name) {
  const from = document.people[index].name;
  return sound([
    ...listsOf(document, ['shots'], 'people', from, name),
    setting(document, ['people', stepTo(document.people, index), 'name'], name),
  ]);
}

export function removePerson(document, index) {
  const { name } = document.people[index];
  return standing(document, [
    ...listsOf(document, ['shots'], 'people', name, undefined),
    { op: 'remove', path: ['people', stepTo(document.people, index)], was: document.people[index] },
  ].filter((edit) => edit !== null));
}

export function renameLook(document, index, name) {
  const from = document.looks[index].name;
  return sound([
    ...(document.shots ?? []).map((shot, i) =>
      shot.look === from ? setting(document, ['shots', stepTo(document.shots, i), 'look'], name) : null,
    ),
    setting(document, ['looks', stepTo(document.looks, index), 'name'], name),
  ]);
}

export function renameLight(document, index, name) {
  const from = document.rig[index].name;
  const looks = (document.looks ?? []).flatMap((look, i) => {
    const path = ['looks', stepTo(document.looks, i)];
    return [
      ...['lights', 'moved'].map((group) =>
        look[group]?.[from] === undefined
          ? null
          : { op: 'rename', path: [...path, group, from], value: name },
      ),
      look.key === from ? setting(document, [...path, 'key'], name) : null,
    ];
  });
  return sound([
    ...looks,
    ...lightsThere(document, from, name),
    setting(document, ['rig', stepTo(document.rig, index), 'name'], name),
  ]);
}

export function removeLight(document, index) {
  const { name } = document.rig[index];
  const looks = (document.looks ?? []).flatMap((look, i) => {
    const path = ['looks', stepTo(document.looks, i)];
    const gone = (...steps) => setting(document, [...path, ...steps], undefined);
    const last = Object.keys(look.moved ?? {}).length === 1;
    return [
      gone('lights', name),
      look.moved?.[name] === undefined ? null : last ? gone('moved') : gone('moved', name),
      look.key === name ? gone('key') : null,
    ];
  });
  return sound([
    ...looks,
    ...lightsThere(document, name, undefined),
    { op: 'remove', path: ['rig', stepTo(document.rig, index)], was: document.rig[index] },
  ]);
}

/** The safe shot is one, and the first. */
export function makeSafe(document, index) {
  const path = (i) => ['shots', stepTo(document.shots, i)];
  return sound([
    ...document.shots.map((shot, i) =>
      shot.safe === true ? setting(document, [...path(i), 'safe'], undefined) : null,
    ),
    setting(document, [...path(index), 'safe'], true),
    index === 0 ? null : { op: 'move', path: path(index), index: 0 },
  ]);
}

/** A second place: the first goes along into the list. */
export function addPlace(document, place) {
  if (Array.isArray(document.places)) {
    return [{ op: 'insert', path: ['places'], index: document.places.length, value: place }];
  }
  if (document.place === undefined) return [{ op: 'set', path: ['place'], was: null, value: place }];
  return [
    { op: 'set', path: ['places'], was: null, value: [document.place, place] },
    { op: 'remove', path: ['place'], was: document.place },
  ];
}

/** Takes a key away, and its group if that is then empty. */
export function leaveOut(document, path) {
  const group = at(document, path.slice(0, -1));
  const last = group !== undefined && Object.keys(group).length === 1;
  return sound([setting(document, last ? path.slice(0, -1) : path, undefined)]);
}

/** Edits, and those that let people stand who are now more or fewer than an arrangement takes. */
export function standing(document, edits) {
  const then = after(document, edits);
  const fits = (then.shots ?? []).map((shot, i) => {
    if (shot.solos === true) return null;
    const now = arrangementOf(shot.arrangement);
    const count = peopleOf(then, shot).length;
    if (count === 0 || shot.arrangement === undefined) return null;
    const can = fitted(now, count);
    if (same(now, can)) return null;
    return setting(then, ['shots', stepTo(then.shots, i), 'arrangement'], writtenAs(can));
  });
  return [...edits, ...sound(fits)];
}

/** Lists of names in which one gets another name, or goes. */
function listsOf(document, path, key, from, to) {
  const list = at(document, path) ?? [];
  return list.map((one, i) =>
    Array.isArray(one[key]) && one[key].includes(from)
      ? setting(document, [...path, stepTo(list, i), key], swapped(one[key], from, to))
      : null,
  );
}

function swapped(names, from, to) {
  return names.flatMap((name) => (name !== from ? [name] : to === undefined ? [] : [to]));
}

/** Where places name a light: what stands there, and what is plugged in. */
function lightsThere(document, from, to) {
  return placesOf(document).flatMap(({ place, path }) => {
    const there = (place.lights ?? []).flatMap((one) => {
      if (one === from) return to === undefined ? [] : [to];
      if (one?.name !== from) return [one];
      return to === undefined ? [] : [{ ...one, name: to }];
    });
    return [
      place.lights === undefined || same(there, place.lights)
        ? null
        : setting(document, [...path, 'lights'], there),
      ...listsOf(document, [...path, 'circuits'], 'lights', from, to),
    ];
  });
}

const sound = (edits) => edits.filter((edit) => edit !== null);
