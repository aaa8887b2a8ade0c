/**
 * What can be done to the light. Pure. A wish is what goes to /light beside the position:
 * {do: 'brighter'|'darker'|'warmer'|'colder'|'off'|'on', light}, {do: 'swap'|'keep'|'forget'|'undo'},
 * {do: 'steady', kelvin}, {do: 'unsteady'}. `light` is the part of the crew message.
 */

/** Wishes that add up when they come again. */
const NUDGES = new Set(['brighter', 'darker', 'warmer', 'colder']);

export const isNudge = (wish) => NUDGES.has(wish.do);

/** Whether it does something now. */
export function canDo(light, wish) {
  return whyNot(light, wish) === '';
}

/** Why it does nothing now, in words; '' if it does something. */
export function whyNot(light, wish) {
  switch (wish.do) {
    case 'undo':
      return noLook(light) || (light.undo === null ? 'There is nothing to undo.' : '');
    case 'swap':
    case 'steady':
      return noLook(light);
    case 'unsteady':
      return noLook(light) || (light.cameraStays ? '' : 'The camera is as planned.');
    case 'keep':
      return noLook(light) || (light.open ? '' : 'Nothing is changed for this shot.');
    case 'forget':
      return noLook(light) || (light.open || light.kept ? '' : 'Nothing is changed.');
    default:
      return whyNotLamp(light, wish);
  }
}

/** Why no look can be changed; '' if one is on. */
function noLook(light) {
  switch (light.what) {
    case 'test':
      return 'A test is on: end it first.';
    case 'plate':
      return 'Plates are being taken: give them up first.';
    case 'work light':
      return 'Work light is on: the first shot comes first.';
    default:
      return '';
  }
}

function whyNotLamp(light, wish) {
  const lamp = light.lights.find((one) => one.name === wish.light);
  if (lamp === undefined) return `There is no light ${wish.light}.`;
  if (lamp.can.includes(wish.do)) return '';
  const none = noLook(light);
  if (none !== '') return none;
  if (wish.do === 'on') return lamp.on ? `${lamp.name} is on.` : `${lamp.name} is not in this look.`;
  if (!lamp.on) {
    return lamp.can.includes('on')
      ? `${lamp.name} is off: switch it on first.`
      : `${lamp.name} is not in this look.`;
  }
  const reach = lamp.limits === '' ? '' : ` It goes ${lamp.limits}.`;
  switch (wish.do) {
    case 'brighter':
    case 'darker':
      return `${lamp.name} goes no ${wish.do}.${reach}`;
    case 'warmer':
    case 'colder':
      return `${lamp.name} goes no ${wish.do}: it is at the end of its whites, or its colour is no white.`;
    default:
      return `${lamp.name} stays as it is.`;
  }
}

/** True if how far it can go is worth the room: it is at an end. */
export function atAnEnd(lamp) {
  if (!lamp.on || lamp.can.length === 0) return false;
  return !lamp.can.includes('brighter') || !lamp.can.includes('darker');
}

/** Camera settings in the order photographers say them, the colour temperature first. */
export function cameraWords(camera) {
  return {
    kelvin: `${Math.round(camera.kelvin)} K`,
    aperture: `f/${camera.fNumber}`,
    time: `${camera.time} s`,
    iso: `ISO ${camera.iso}`,
  };
}
