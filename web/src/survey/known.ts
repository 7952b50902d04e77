// How each value is known: seen, from a label, or assumed; and the edit that says so.

import { isTree, rows, word, type Tree, type Value } from '../house/values';

export type Known = 'seen' | 'label' | 'assumed';

export interface Item {
  path: string;
  what: string;
  is: string;
  known: Known;
  how: string;
  group: string;
}

export function knownOf(t: Tree): { known: Known; how: string } {
  const seen = word(t, 'seen');
  const known = word(t, 'known');
  if (known === 'seen' || known === 'label' || known === 'assumed') return { known, how: seen === known ? '' : seen };
  if (seen === 'label' || seen === 'assumed') return { known: seen, how: '' };
  return seen ? { known: 'seen', how: seen } : { known: 'assumed', how: '' };
}

/** Edits that say how a value is known, and leave the person's words where they still hold. */
export function knownEdits(path: string, t: Tree, to: Known): { path: string; value: Value }[] {
  const now = knownOf(t);
  if (now.known === to) return [];
  const out: { path: string; value: Value }[] = [];
  if (t['seen'] !== undefined && !(to === 'seen' && now.how !== '')) out.push({ path: `${path}.seen`, value: null });
  out.push({ path: `${path}.known`, value: to });
  return out;
}

/** Everything of the job whose being known is worth asking. */
export function items(values: Tree): Item[] {
  const out: Item[] = [];
  const add = (group: string, path: string, what: string, is: string, t: Tree) => out.push({ group, path, what, is, ...knownOf(t) });
  const built = values['construction'];
  if (isTree(built))
    for (const [name, t] of Object.entries(built))
      if (isTree(t)) add('Built of', `construction.${name}`, name, word(t, 'like') || (Array.isArray(t['layers']) ? t['layers'].join(', ') : word(t, 'r') || word(t, 'u')), t);
  const leakage = values['leakage'];
  if (isTree(leakage)) add('Built of', 'leakage', 'leakage', word(leakage, 'blower_door') || Object.entries(leakage).filter(([k]) => k !== 'seen' && k !== 'known').map(([, v]) => String(v)).join(', '), leakage);
  const soil = values['soil'];
  if (isTree(soil)) add('Built of', 'soil', 'soil', word(soil, 'kind'), soil);
  rows(values, 'window').forEach((w, i) => {
    const glass = isTree(w['glazing']) ? 'by its label' : word(w, 'glazing');
    const count = word(w, 'count');
    add('Windows', `window.${i + 1}`, word(w, 'name') || `${word(w, 'room')} ${word(w, 'wall')}`, `${count && count !== '1' ? `${count} of ` : ''}${word(w, 'width')} by ${word(w, 'height')}, ${glass}`, w);
  });
  rows(values, 'outer_door').forEach((w, i) => add('Outer doors', `outer_door.${i + 1}`, `${word(w, 'room')} ${word(w, 'wall')}`, `U ${word(w, 'u')}`, w));
  for (const key of ['existing', 'backup']) {
    const t = values[key];
    if (isTree(t)) add('What heats now', key, key === 'existing' ? word(t, 'kind') || 'heater' : 'backup', [word(t, 'fuel'), word(t, 'efficiency'), word(t, 'capacity')].filter(Boolean).join(', '), t);
  }
  return out;
}
