import { stepTo } from './document.js';
import { peopleOf } from './shoot.js';
import { arrangementOf, places } from './standing.js';

/** Where a light looks if the plan does not say: the faces in the middle of the nearest row. */
export const AIM = [0, 0, 1.6];

/**
 * The set from above, as plan-plot shows it. Pure.
 *
 * @param {object} document of the plan
 * @param {object|undefined} shot whose people and camera are drawn
 * @param {{place: object, path: object[]}|undefined} there the place, as of placesOf
 * @param {'rig'|'place'|'look'} whose which positions can be dragged: those of the rig, or the own
 *     ones of this place, or of this shot's look
 */
export function plotOf(document, shot, there, whose) {
  const people = shot === undefined ? [] : peopleOf(document, shot);
  const shown = shot?.solos === true ? people.slice(0, 1) : people;
  const spots = places(arrangementOf(shot?.solos ? 'solo' : shot?.arrangement), shown.length);
  const lookIndex = (document.looks ?? []).findIndex((look) => look.name === shot?.look);
  const look = document.looks?.[lookIndex];
  const lookPath = ['looks', stepTo(document.looks ?? [], lookIndex)];
  return {
    room: {
      width: number(there?.place.width, 8),
      depth: number(there?.place.depth, 9),
      background: number(there?.place.background?.distance, 2.5),
    },
    camera: { x: 0, y: -number(shot?.distance, 4), lens: number(shot?.lens, 35) },
    upright: /portrait|cover/.test(shot?.framing ?? ''),
    people: shown.map((name, i) => ({ name, ...(spots[i] ?? { x: 0, y: 0 }) })),
    lights: (document.rig ?? []).flatMap((light, i) => {
      const own = there?.place.lights?.findIndex((one) => one === light.name || one?.name === light.name);
      if (own === -1) return [];
      const here = own === undefined ? undefined : there.place.lights[own];
      const moved = look?.moved?.[light.name];
      const position = moved?.position ?? here?.position ?? light.position;
      if (!isPoint(position)) return [];
      const aim = moved?.aim ?? here?.aim ?? light.aim ?? AIM;
      const path = {
        rig: ['rig', stepTo(document.rig, i)],
        place: here?.position === undefined ? null : [...there.path, 'lights', { name: light.name }],
        look: moved === undefined ? null : [...lookPath, 'moved', light.name],
      }[whose];
      // What is dragged is what is seen: the rig's position stands under that of a place or look.
      const seen = whose !== 'rig' || (moved?.position === undefined && here?.position === undefined);
      return {
        name: light.name,
        position,
        aim,
        on: isOn(look?.lights?.[light.name]),
        path: seen ? path : null,
      };
    }),
  };
}

const isOn = (level) => level !== undefined && level.percent !== 0;
const isPoint = (point) => Array.isArray(point) && point.every(Number.isFinite);
const number = (value, otherwise) => (Number.isFinite(value) ? value : otherwise);
