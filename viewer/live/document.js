/**
 * The plan file as plain JSON, and edits of it. Pure: nothing that is given is changed.
 *
 * A path is a list of steps: a key, an index, or an object with one key that chooses the item that has
 * this value there, {name: 'safe'}. Edits: {op: 'set', path, was, value}, {op: 'remove', path, was},
 * {op: 'insert', path, index, value}, {op: 'move', path, index} (the index afterwards),
 * {op: 'duplicate', path, changes}, {op: 'rename', path, value} (of a key).
 */

/** What is at a path; undefined if nothing is. */
export function at(document, path) {
  return path.reduce((here, step) => here?.[keyIn(here, step)], document);
}

/** The step that chooses an item: by its id or name if it has one of its own, else by its place. */
export function stepTo(list, index) {
  for (const key of ['id', 'name', 'client']) {
    const value = list[index]?.[key];
    if (typeof value === 'string' && list.filter((one) => one?.[key] === value).length === 1) {
      return { [key]: value };
    }
  }
  return index;
}

/** Gives a value, or takes the key away if the value is undefined; null if that changes nothing. */
export function setting(document, path, value) {
  const was = at(document, path);
  if (same(was, value)) return null;
  if (value === undefined) return { op: 'remove', path, was };
  return { op: 'set', path, was: was ?? null, value };
}

/** The document after edits, as the server would have it. An edit that finds nothing does nothing. */
export function after(document, edits) {
  const copy = structuredClone(document);
  for (const edit of edits) apply(copy, edit);
  return copy;
}

export const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);

/** A name that no item has yet: 'key 2', 'key 3' ... */
export function freeName(list, wanted, key = 'name') {
  const taken = new Set((list ?? []).map((one) => one?.[key]));
  const gap = key === 'id' ? '-' : ' ';
  const stem = taken.has(wanted) ? wanted.replace(/[ -]\d+$/, '') : wanted;
  let name = stem;
  for (let n = 2; taken.has(name); n += 1) name = `${stem}${gap}${n}`;
  return name;
}

function keyIn(here, step) {
  if (typeof step !== 'object') return step;
  if (!Array.isArray(here)) return undefined;
  const [key, value] = Object.entries(step)[0];
  const index = here.findIndex((one) => one?.[key] === value);
  return index < 0 ? undefined : index;
}

function apply(document, edit) {
  const { path, value, index } = edit;
  if (edit.op === 'insert') {
    at(document, path)?.splice(index, 0, structuredClone(value));
    return;
  }
  const holder = edit.op === 'set' ? made(document, path.slice(0, -1)) : at(document, path.slice(0, -1));
  const key = holder === undefined ? undefined : keyIn(holder, path.at(-1));
  if (key === undefined || holder === null || typeof holder !== 'object') return;
  switch (edit.op) {
    case 'set':
      holder[key] = structuredClone(value);
      break;
    case 'remove':
      if (Array.isArray(holder)) holder.splice(key, 1);
      else delete holder[key];
      break;
    case 'move':
      holder.splice(index, 0, ...holder.splice(key, 1));
      break;
    case 'duplicate':
      holder.splice(key + 1, 0, { ...structuredClone(holder[key]), ...edit.changes });
      break;
    case 'rename':
      renameKey(holder, key, value);
      break;
    default:
      throw new Error(`no such edit: ${edit.op}`);
  }
}

/** Groups on the way to a new key are made too. */
function made(document, path) {
  let here = document;
  for (const step of path) {
    const key = keyIn(here, step);
    if (key === undefined) return undefined;
    here[key] ??= {};
    here = here[key];
  }
  return here;
}

/** In its place among the others. */
function renameKey(group, from, to) {
  const entries = Object.entries(group).map(([key, value]) => [key === from ? to : key, value]);
  for (const key of Object.keys(group)) delete group[key];
  Object.assign(group, Object.fromEntries(entries));
}
