import { at, freeName, stepTo } from '../../live/document.js';
import {
  addPlace,
  freeSlot,
  idOf,
  peopleOf,
  placesOf,
  removeLight,
  removePerson,
  slotsOf,
  slug,
  standing,
} from '../../live/shoot.js';
import { LightForm } from './light-form.js';
import { LookForm, newLook } from './look-form.js';
import { PersonForm } from './person-form.js';
import { PlaceForm, ShootForm } from './place-form.js';
import { newShot, ShotForm } from './shot-form.js';

/**
 * What each tab lists, and how an entry is added, copied and removed.
 *
 * lines(document): name and aside of each entry; path(document, i); keyOf: how an entry is found again;
 * add, copy, remove (document, i, known): edits.
 */
export const TABS = {
  people: {
    words: 'People',
    one: 'a person',
    form: (ask) => new PersonForm(ask),
    list: 'people',
    lines: ({ people }) => people.map(({ name, plays = '' }) => ({ name, aside: plays })),
    add: (document, at) => {
      const value = { name: freeName(document.people, 'Person'), height: 1.75 };
      return standing(document, [{ op: 'insert', path: ['people'], index: at, value }]);
    },
    copy: (document, i) => {
      const name = freeName(document.people, document.people[i].name);
      return standing(document, [duplicate(document, 'people', i, { name })]);
    },
    remove: removePerson,
  },
  place: {
    words: 'Place',
    one: 'a place',
    form: (ask) => new PlaceForm(ask),
    list: 'places',
    lines: (document) =>
      placesOf(document).map(({ place }) => ({
        name: place.name ?? '',
        aside: [place.from, place.until].filter((one) => one !== undefined).join(' to '),
      })),
    path: (document, i) => placesOf(document)[i]?.path,
    add: (document) => addPlace(document, newPlace(document)),
    copy: (document, i) => {
      const all = placesOf(document);
      const { place } = all[i];
      const name = freeName(all.map((one) => one.place), place.name);
      if (!Array.isArray(document.places)) return addPlace(document, { ...place, name });
      return [duplicate(document, 'places', i, { name })];
    },
    remove: (document, i) => {
      const { place, path } = placesOf(document)[i];
      return [{ op: 'remove', path, was: place }];
    },
    move: (document, from, to) =>
      Array.isArray(document.places) ? [move(document, 'places', from, to)] : [],
  },
  rig: {
    words: 'Lights',
    one: 'a light',
    form: (ask) => new LightForm(ask),
    list: 'rig',
    lines: ({ rig }) => rig.map((light) => ({ name: light.name, aside: addressOf(light) })),
    add: (document, at, known) => {
      const value = newLight(document, known);
      return [{ op: 'insert', path: ['rig'], index: at, value }];
    },
    copy: (document, i, known) => {
      const light = document.rig[i];
      const slot = freeSlot(document, known, {
        universe: light.universe,
        slots: slotsOf(known, light),
      });
      const [x, y, z] = light.position;
      const position = [Math.round(x * 10 + 5) / 10, y, z];
      const name = freeName(document.rig, light.name);
      return [duplicate(document, 'rig', i, { name, slot: slot ?? light.slot, position })];
    },
    remove: removeLight,
  },
  looks: {
    words: 'Looks',
    one: 'a look',
    form: (ask) => new LookForm(ask),
    list: 'looks',
    lines: (document) =>
      document.looks.map(({ name, lights }) => ({ name, aside: Object.keys(lights ?? {}).join(', ') })),
    add: (document, at) => {
      const value = newLook(document, freeName(document.looks, 'look'));
      return [{ op: 'insert', path: ['looks'], index: at, value }];
    },
    copy: (document, i) => {
      const name = freeName(document.looks, document.looks[i].name);
      return [duplicate(document, 'looks', i, { name })];
    },
  },
  shots: {
    words: 'Shots',
    one: 'a shot',
    form: (ask) => new ShotForm(ask),
    list: 'shots',
    lines: (document) =>
      document.shots.map((shot) => ({
        name: shot.name ?? 'Solo',
        aside: [
          shot.safe === true ? 'the safe shot' : '',
          shot.solos === true ? `${peopleOf(document, shot).length} solos` : '',
          shot.look === shot.name?.toLowerCase() ? '' : shot.look,
        ]
          .filter((one) => one !== '' && one !== undefined)
          .join(', '),
      })),
    add: (document, at) => {
      const name = freeName(document.shots, 'Shot');
      const value = newShot(document, document.shots?.[at - 1], name, freeId(document, name));
      return [{ op: 'insert', path: ['shots'], index: at, value }];
    },
    copy: (document, i) => {
      const shot = document.shots[i];
      const name = freeName(document.shots, shot.name ?? 'Solo');
      const changes = { id: freeId(document, name), name };
      if (shot.safe === true) changes.safe = false;
      return [duplicate(document, 'shots', i, changes)];
    },
  },
};

/** What holds for the whole shoot stands above the places. */
export const SHOOT = { words: 'The shoot', form: (ask) => new ShootForm(ask) };

export function pathOf(tab, document, i) {
  return TABS[tab].path?.(document, i) ?? [TABS[tab].list, stepTo(at(document, [TABS[tab].list]) ?? [], i)];
}

export function linesOf(tab, document) {
  if (tab === 'place') return TABS.place.lines(document);
  const list = document[TABS[tab].list];
  return Array.isArray(list) ? TABS[tab].lines(document) : [];
}

/** An empty plan may lack the whole list. */
export function adding(tab, document, i, known) {
  const { list } = TABS[tab];
  if (tab === 'place' || Array.isArray(document[list])) return TABS[tab].add(document, i, known);
  const [{ value }] = TABS[tab].add({ ...document, [list]: [] }, 0, known);
  return [{ op: 'set', path: [list], was: null, value: [value] }];
}

export function removing(tab, document, i) {
  if (TABS[tab].remove !== undefined) return TABS[tab].remove(document, i);
  const path = pathOf(tab, document, i);
  return [{ op: 'remove', path, was: at(document, path) }];
}

export function moving(tab, document, from, to) {
  return TABS[tab].move?.(document, from, to) ?? [move(document, TABS[tab].list, from, to)];
}

function move(document, list, from, to) {
  return { op: 'move', path: [list, stepTo(document[list], from)], index: to };
}

function duplicate(document, list, i, changes) {
  return { op: 'duplicate', path: [list, stepTo(document[list], i)], changes };
}

function newPlace(document) {
  const name = freeName(placesOf(document).map((one) => one.place), 'another place');
  return { name, width: 6, depth: 8, height: 3, background: { distance: 2, surface: 'white paint' } };
}

function newLight(document, known) {
  const fixture = known?.fixtures?.find((one) => one.id === 'bi-colour') ?? known?.fixtures?.[0];
  const mode = fixture?.modes[0];
  const light = { name: freeName(document.rig, 'light'), fixture: fixture?.id ?? 'bi-colour' };
  if (mode !== undefined) light.mode = mode.id;
  light.slot = freeSlot(document, known, { slots: mode?.slots ?? 1 }) ?? 1;
  // Left and right by turns, in front of the people.
  const count = (document.rig ?? []).length;
  const side = (count % 2 === 0 ? -1 : 1) * (1.5 + Math.floor(count / 2) * 0.5);
  light.position = [side, -2, 2.3];
  return light;
}

function addressOf({ universe = 1, slot, fixture }) {
  return `${fixture}, ${universe === 1 ? '' : `universe ${universe}, `}slot ${slot}`;
}

function freeId(document, name) {
  // A round of solos has an id of its own besides those of its pictures.
  const ids = (document.shots ?? []).flatMap((shot) => [{ id: shot.id }, { id: idOf(document, shot) }]);
  return freeName(ids, slug(name) || 'shot', 'id');
}
