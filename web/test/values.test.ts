import { describe, expect, it } from 'vitest';
import { back, look, made, madeAll, type Edit, type Tree } from '../src/house/values';
import { knownEdits, knownOf } from '../src/survey/known';

const job: Tree = {
  job: { name: 'A' },
  room: [{ name: 'living', heated_to: '70 F', door_to: [{ room: 'hall', width: '30 in' }] }, { name: 'hall' }],
  window: [{ room: 'living', wall: 'west' }, { room: 'hall', wall: 'north' }],
  construction: { wall: { like: 'old', seen: 'borescope' } },
};

describe('paths', () => {
  it('lead by name and by number', () => {
    expect(look(job, 'room.living.heated_to')).toBe('70 F');
    expect(look(job, 'room.living.door_to.1.width')).toBe('30 in');
    expect(look(job, 'window.2.wall')).toBe('north');
    expect(look(job, 'construction.wall.seen')).toBe('borescope');
    expect(look(job, 'room.attic')).toBeUndefined();
  });
});

describe('edits', () => {
  const edits: Edit[] = [
    { path: 'room.living.heated_to', value: '68 F', was: '70 F' },
    { path: 'window', value: { room: 'hall', wall: 'east' }, was: null },
    { path: 'window.1', value: null, was: { room: 'living', wall: 'west' } },
    { path: 'leakage.blower_door', value: '2000 cfm at 50 Pa', was: null },
  ];
  it('are made on a copy', () => {
    const out = madeAll(job, edits);
    expect(look(out, 'room.living.heated_to')).toBe('68 F');
    expect(out['window']).toEqual([{ room: 'hall', wall: 'north' }, { room: 'hall', wall: 'east' }]);
    expect(look(out, 'leakage.blower_door')).toBe('2000 cfm at 50 Pa');
    expect(look(job, 'room.living.heated_to')).toBe('70 F');
  });
  it('come back', () => {
    const one = edits.slice(0, 2);
    expect(madeAll(madeAll(job, one), back(job, one))).toEqual(job);
    const gone: Edit[] = [{ path: 'window.1', value: null, was: null }];
    const again = madeAll(made(job, gone[0] as Edit), back(job, gone));
    expect((again['window'] as Tree[]).map((w) => w['wall']).sort()).toEqual(['north', 'west']);
  });
});

describe('how a thing is known', () => {
  it('reads words and sets them in as few edits as hold', () => {
    const wall = { like: 'old', seen: 'borescope' };
    expect(knownOf(wall)).toEqual({ known: 'seen', how: 'borescope' });
    expect(knownEdits('construction.wall', wall, 'seen')).toEqual([]);
    expect(knownEdits('construction.wall', wall, 'assumed')).toEqual([
      { path: 'construction.wall.seen', value: null }, { path: 'construction.wall.known', value: 'assumed' },
    ]);
    expect(knownOf({})).toEqual({ known: 'assumed', how: '' });
    expect(knownOf({ seen: 'label' }).known).toBe('label');
  });
});
