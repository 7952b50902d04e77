// The job file as a tree of values, as typed, and how a path leads into it.

export type Value = string | number | boolean | null | Value[] | { [key: string]: Value };
export type Tree = { [key: string]: Value };

export interface Edit {
  path: string;
  value: Value;
  /** What stood there before; null for nothing. */
  was: Value;
}

export function isTree(v: Value | undefined): v is Tree {
  return typeof v === 'object' && v !== null && !Array.isArray(v);
}

export function rows(tree: Tree, key: string): Tree[] {
  const list = tree[key];
  return Array.isArray(list) ? list.filter(isTree) : [];
}

export function word(tree: Tree | undefined, key: string): string {
  const v = tree?.[key];
  return typeof v === 'string' ? v : typeof v === 'number' || typeof v === 'boolean' ? String(v) : '';
}

export function same(a: Value | undefined, b: Value | undefined): boolean {
  return JSON.stringify(a ?? null) === JSON.stringify(b ?? null);
}

/** Lists whose rows go by the value of one key; others by their number, from 1. */
const NAMED: Record<string, string> = { room: 'name', storey: 'name', outdoor: 'name', listener: 'name', option: 'name' };

function step(here: Value | undefined, list: string, part: string): number {
  if (!Array.isArray(here)) return -1;
  const key = NAMED[list];
  if (key !== undefined) {
    const i = here.findIndex((r) => isTree(r) && r[key] === part);
    if (i >= 0) return i;
  }
  const n = Number(part);
  return Number.isInteger(n) && n >= 1 && n <= here.length ? n - 1 : -1;
}

/** What stands at a path; undefined for nothing. */
export function look(tree: Tree, path: string): Value | undefined {
  let here: Value | undefined = tree;
  let before = '';
  for (const part of path.split('.')) {
    if (Array.isArray(here)) {
      const i = step(here, before, part);
      here = i < 0 ? undefined : here[i];
    } else if (isTree(here)) {
      here = here[part];
      before = part;
    } else return undefined;
  }
  return here;
}

/**
 * A copy of the tree with the edit made: an object onto a list adds a row, null takes out.
 * A path that leads nowhere changes nothing; the server says so in words.
 */
export function made(tree: Tree, edit: Edit): Tree {
  const out = structuredClone(tree);
  const parts = edit.path.split('.');
  const last = parts.pop();
  if (last === undefined) return out;
  let here: Value = out;
  let before = '';
  for (const part of parts) {
    if (Array.isArray(here)) {
      const i = step(here, before, part);
      const next: Value | undefined = i < 0 ? undefined : here[i];
      if (next === undefined) return out;
      here = next;
    } else if (isTree(here)) {
      here[part] ??= {};
      here = here[part];
      before = part;
    } else return out;
  }
  if (Array.isArray(here)) {
    const i = step(here, before, last);
    if (i < 0) return out;
    if (edit.value === null) here.splice(i, 1);
    else here[i] = structuredClone(edit.value);
  } else if (isTree(here)) {
    if (edit.value === null) Reflect.deleteProperty(here, last);
    else if (isTree(edit.value) && isList(last, here[last])) {
      const list = here[last];
      if (Array.isArray(list)) list.push(structuredClone(edit.value));
      else here[last] = [structuredClone(edit.value)];
    } else here[last] = structuredClone(edit.value);
  }
  return out;
}

const LISTS = ['storey', 'room', 'wall', 'window', 'outer_door', 'door', 'vent', 'outdoor', 'head', 'option',
  'bill', 'outdoor_place', 'head_place', 'listener', 'line', 'drain', 'circuit', 'requirement', 'weighing', 'tool',
  'photo', 'door_to'];

function isList(key: string, now: Value | undefined): boolean {
  return Array.isArray(now) || (now === undefined && LISTS.includes(key));
}

export function madeAll(tree: Tree, edits: readonly Edit[]): Tree {
  return edits.reduce(made, tree);
}

/** The edits that bring back what these changed, in the order that undoes them. */
export function back(tree: Tree, edits: readonly Edit[]): Edit[] {
  const out: Edit[] = [];
  let now = tree;
  for (const e of edits) {
    const was = look(now, e.path) ?? null;
    const next = made(now, e);
    const key = e.path.split('.').pop() ?? '';
    if (isTree(e.value) && isList(key, look(now, e.path))) {
      const list = look(next, e.path);
      const n = Array.isArray(list) ? list.length : 1;
      out.unshift({ path: `${e.path}.${n}`, value: null, was: e.value });
    } else if (e.value === null && isTree(was)) {
      // A row taken out comes back at the end of its list.
      const list = e.path.split('.').slice(0, -1).join('.');
      out.unshift({ path: list, value: was, was: null });
    } else {
      out.unshift({ path: e.path, value: was, was: e.value });
    }
    now = next;
  }
  return out;
}
