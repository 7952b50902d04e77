// The set of sheets, and which sheet a finding belongs on.

import type { Finding, Level } from '../api/shapes';

export interface SheetName {
  n: number;
  key: string;
  name: string;
  about: string;
}

export const SHEETS: SheetName[] = [
  { n: 1, key: 'visit', name: 'Visit', about: 'what was seen, and what is still missing' },
  { n: 2, key: 'house', name: 'House', about: 'the plan, with what each room loses' },
  { n: 3, key: 'rooms', name: 'Rooms', about: 'warmth without a head, doors open and closed' },
  { n: 4, key: 'winter', name: 'Winter', about: 'what the unit can give, what the house asks' },
  { n: 5, key: 'year', name: 'Year', about: 'every hour of the year' },
  { n: 6, key: 'outside', name: 'Outside', about: 'the outdoor wall, and the sound at the lot line' },
  { n: 7, key: 'lines', name: 'Lines', about: 'routes and falls, seen from the side' },
  { n: 8, key: 'day', name: 'The day', about: 'pressure, vacuum, start-up' },
];

export const LEVELS: Level[] = ['stop', 'fix', 'ask', 'note'];
export const LEVEL_WORD: Record<Level, string> = { stop: 'Stop', fix: 'Fix', ask: 'Ask', note: 'Note' };

export function sheetOf(f: Finding): string {
  const family = f.place.split(/[.,:/]/)[0] ?? '';
  if (/cycles|multi-zone|fuel-cheaper|capacity|sheet-/.test(f.rule)) return 'winter';
  switch (family) {
    case 'outdoor': case 'outdoors': case 'outdoor_place': case 'listener': case 'circuit': case 'panel':
      return 'outside';
    case 'line': case 'drain': case 'lines':
      return 'lines';
    case 'tool': case 'weighing': case 'charge':
      return 'day';
    case 'prices': case 'catalogue': case 'option': case 'existing':
      return 'winter';
    default:
      return 'house';
  }
}

/** The room a finding speaks of; empty where it speaks of none. */
export function roomOf(f: Finding): string {
  const m = /^(?:room|head|window|outer_door)\.([^.,]+)/.exec(f.place);
  return m?.[1] ?? '';
}
