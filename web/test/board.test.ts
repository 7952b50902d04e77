import { describe, expect, it } from 'vitest';
import { doors, drawing, openings, stretches } from '../src/house/drawing';
import { placeLabel, meet, wide, LINE } from '../src/house/labels';
import { moveCorner, moveWall, outlineEdits, outlines, snap, troubles, withCorner, type Outlines } from '../src/house/moves';
import { area, faces, overlap, roomiest, wallName, type Point } from '../src/house/shape';
import type { Tree } from '../src/house/values';

const rect = (x0: number, y0: number, x1: number, y1: number): Point[] => [[x0, y0], [x1, y0], [x1, y1], [x0, y1]];
// Three rooms: one to the west, two to the east that share its wall.
const house: Outlines = new Map([['a', rect(0, 0, 4, 6)], ['b', rect(4, 0, 8, 3)], ['c', rect(4, 3, 8, 6)]]);
const total = (of: Outlines) => [...of.values()].reduce((s, p) => s + area(p), 0);

describe('walls', () => {
  it('face outwards whichever way the corners go round', () => {
    const p = rect(0, 0, 4, 3);
    expect([0, 1, 2, 3].map((i) => faces(p, i))).toEqual(['south', 'east', 'north', 'west']);
    const back = [...p].reverse();
    expect(faces(back, 0)).toBe('north');
  });
  it('go by number where two face one way', () => {
    const l: Point[] = [[0, 0], [6, 0], [6, 3], [3, 3], [3, 6], [0, 6]];
    expect(wallName(l, 0)).toBe('south');
    expect(wallName(l, 1)).toBe(2);
  });
  it('move with all that shares them, and no floor is lost or made between rooms', () => {
    const moved = moveWall(house, 'a', 1, 0.5);
    expect(moved.get('a')?.[1]).toEqual([4.5, 0]);
    expect(moved.get('b')?.[0]).toEqual([4.5, 0]);
    expect(moved.get('c')?.[3]).toEqual([4.5, 6]);
    expect(total(moved)).toBeCloseTo(total(house), 9);
    expect(troubles(moved, false)).toEqual([]);
  });
  it('keep right angles when a corner is taken', () => {
    const moved = moveCorner(house, 'b', 2, [8.5, 3.5], false);
    expect(moved.get('b')).toEqual(rect(4, 0, 8.5, 3.5));
    expect(moved.get('c')).toEqual(rect(4, 3.5, 8.5, 6));
  });
  it('become edits of every room that changed, smaller ones first', () => {
    const moved = moveWall(house, 'a', 1, 0.3048);
    const edits = outlineEdits(house, moved, false);
    expect(edits.map((e) => e.path).sort()).toEqual(['room.a.outline', 'room.b.outline', 'room.c.outline']);
    expect(edits[2]?.path).toBe('room.a.outline');
  });
  it('take a new corner in their middle', () => {
    expect(withCorner(rect(0, 0, 4, 3), 0)[1]).toEqual([2, 0]);
  });
});

describe('what is wrong', () => {
  it('is said at its place', () => {
    const bad = new Map(house);
    bad.set('b', rect(3, 0, 8, 3));
    const t = troubles(bad, false)[0];
    expect(t?.says).toContain('a lies over b');
    expect(t?.over).toEqual({ x0: 3, y0: 0, x1: 4, y1: 3 });
  });
  it('is not said where rooms only touch', () => {
    expect(overlap(rect(0, 0, 4, 3), rect(4, 0, 8, 3))).toEqual([]);
  });
  it('knows walls that cross', () => {
    const bow: Outlines = new Map([['x', [[0, 0], [4, 0], [0, 3], [4, 3]]]]);
    expect(troubles(bow, false).some((t) => t.says.includes('cross'))).toBe(true);
  });
});

describe('snapping', () => {
  it('falls in line with a wall before the grid', () => {
    expect(snap(4.07, [4], 0.1524, 0.1)).toEqual({ value: 4, line: 4 });
    expect(snap(4.5, [4], 0.5, 0.1)).toEqual({ value: 4.5, line: null });
  });
});

describe('labels', () => {
  it('never lie on an obstacle and never leave the room', () => {
    const box = { x: 0, y: 0, w: 120, h: 90 };
    const lines = [{ text: 'living', size: 14, bold: true }, { text: '9,220 Btu/h', size: 13 }, { text: '42 F, door closed', size: 11.5 }];
    for (let x = 0; x < 120; x += 11)
      for (let y = 0; y < 90; y += 9) {
        const block = { x, y, w: 30, h: 24 };
        const got = placeLabel(box, lines, [block]);
        if (!got) continue;
        const w = Math.max(...got.lines.map((l) => wide(l.text, l.size, l.bold)));
        const here = { x: got.x, y: got.y, w, h: got.lines.length * LINE };
        expect(meet(here, block)).toBe(false);
        expect(here.x).toBeGreaterThanOrEqual(0);
        expect(here.x + here.w).toBeLessThanOrEqual(120);
      }
  });
  it('stand in the roomiest part', () => {
    const l: Point[] = [[0, 0], [6, 0], [6, 2], [2, 2], [2, 6], [0, 6]];
    const b = roomiest(l);
    expect((b.x1 - b.x0) * (b.y1 - b.y0)).toBe(12);
  });
});

describe('the drawing', () => {
  const job: Tree = {
    storey: [{ name: 'ground' }],
    room: [
      { name: 'a', storey: 'ground', heated_to: '70 F', outline: ['0 m, 0 m', '4 m, 0 m', '4 m, 6 m', '0 m, 6 m'], door_to: [{ room: 'b', width: '1 m' }] },
      { name: 'b', storey: 'ground', outline: ['4 m, 0 m', '8 m, 0 m', '8 m, 6 m', '4 m, 6 m'] },
    ],
    window: [{ room: 'a', wall: 'west', width: '1 m', count: 2 }, { room: 'a', wall: 'south', width: '1 m', from_left: '1 m' }],
  };
  const d = drawing(job);
  it('finds what faces outside and what is shared', () => {
    const s = stretches(d.rooms);
    expect(s.filter((x) => x.room === 'a' && x.outside)).toHaveLength(3);
    expect(s.find((x) => x.room === 'a' && x.other === 'b')).toBeDefined();
    expect(outlines(d.rooms).size).toBe(2);
  });
  it('puts windows where they are said, from the left as seen from inside', () => {
    const o = openings(job, d.rooms);
    const south = o.find((x) => x.way === 'south');
    // From inside, the left end of a south wall is its east end: 4 m less 1 m.
    expect(south?.a).toEqual([3, 0]);
    expect(o.filter((x) => x.way === 'west')).toHaveLength(2);
  });
  it('puts a door in the middle of the wall both rooms share', () => {
    const [door] = doors(job, d.rooms);
    expect(((door?.a[1] ?? 0) + (door?.b[1] ?? 0)) / 2).toBeCloseTo(3, 9);
  });
});
