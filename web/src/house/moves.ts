// Moving walls and corners of a storey, with what touches them, and what is wrong with the result.

import { writeLength, writePoint } from '../numbers/length';
import type { Room } from './drawing';
import { area, box, crosses, distance, edges, overlap, type Box, type Point, TOUCH } from './shape';
import type { Value } from './values';

export type Outlines = Map<string, Point[]>;

export function outlines(rooms: readonly Room[]): Outlines {
  return new Map(rooms.map((r) => [r.name, r.outline.map((p): Point => [p[0], p[1]])]));
}

const near = (a: number, b: number) => Math.abs(a - b) < TOUCH;

/** 0 where the wall runs north to south, 1 where it runs east to west, none if slanting. */
export function axis(e: [Point, Point]): 0 | 1 | null {
  if (near(e[0][0], e[1][0])) return 0;
  if (near(e[0][1], e[1][1])) return 1;
  return null;
}

/** The wall and all that continue it or share it move together; a slanting wall moves its ends. */
export function moveWall(of: Outlines, room: string, index: number, by: number): Outlines {
  const e = edges(of.get(room) ?? [])[index];
  if (!e) return of;
  const way = axis(e);
  if (way === null) {
    const l = distance(e[0], e[1]);
    const n: Point = [((e[1][1] - e[0][1]) / l) * by, ((e[0][0] - e[1][0]) / l) * by];
    return shifted(of, (p) => (e.some((q) => distance(p, q) < TOUCH) ? [p[0] + n[0], p[1] + n[1]] : p));
  }
  const at = e[0][way];
  const along = way === 0 ? 1 : 0;
  let from = Math.min(e[0][along], e[1][along]);
  let to = Math.max(e[0][along], e[1][along]);
  const runs: [number, number][] = [];
  for (const p of of.values())
    for (const f of edges(p)) if (axis(f) === way && near(f[0][way], at)) runs.push([Math.min(f[0][along], f[1][along]), Math.max(f[0][along], f[1][along])]);
  for (let grown = true; grown; ) {
    grown = false;
    for (const [a, b] of runs) {
      if (a <= to + TOUCH && b >= from - TOUCH && (a < from - TOUCH || b > to + TOUCH)) {
        from = Math.min(from, a);
        to = Math.max(to, b);
        grown = true;
      }
    }
  }
  return shifted(of, (p) => {
    if (!near(p[way], at) || p[along] < from - TOUCH || p[along] > to + TOUCH) return p;
    return way === 0 ? [p[0] + by, p[1]] : [p[0], p[1] + by];
  });
}

/** A corner: both its walls move, so that right angles stay; `free` moves the corner alone. */
export function moveCorner(of: Outlines, room: string, index: number, to: Point, free: boolean): Outlines {
  const p = of.get(room);
  const here = p?.[index];
  if (!p || !here) return of;
  const before = (index + p.length - 1) % p.length;
  const walls = [before, index] as const;
  const ways = walls.map((w) => {
    const e = edges(p)[w];
    return e ? axis(e) : null;
  });
  if (free || ways.includes(null) || ways[0] === ways[1]) {
    return shifted(of, (q) => (distance(q, here) < TOUCH ? [to[0], to[1]] : q));
  }
  let out = of;
  walls.forEach((w, k) => {
    const way = ways[k];
    if (way === null || way === undefined) return;
    const by = to[way] - here[way];
    if (Math.abs(by) > 1e-9) out = moveWall(out, room, w, by);
  });
  return out;
}

function shifted(of: Outlines, move: (p: Point) => Point): Outlines {
  return new Map([...of].map(([k, v]) => [k, v.map(move)]));
}

/** A new corner in the middle of a wall. */
export function withCorner(p: readonly Point[], index: number): Point[] {
  const e = edges(p)[index];
  if (!e) return [...p];
  const out = [...p];
  out.splice(index + 1, 0, [(e[0][0] + e[1][0]) / 2, (e[0][1] + e[1][1]) / 2]);
  return out;
}

export interface Trouble {
  at: Point;
  says: string;
  rooms: string[];
  over: Box | null;
}

/** What is wrong with the outlines of a storey, at its place. */
export function troubles(of: Outlines, si: boolean): Trouble[] {
  const out: Trouble[] = [];
  const list = [...of];
  for (const [name, p] of list) {
    if (p.length < 3) continue;
    const all = edges(p);
    const short = all.findIndex((e) => distance(e[0], e[1]) < 0.05);
    const at = all[short]?.[0];
    if (short >= 0 && at) out.push({ at, says: `two corners of ${name} fall together`, rooms: [name], over: null });
    for (let i = 0; i < all.length; i += 1)
      for (let k = i + 1; k < all.length; k += 1) {
        const e = all[i];
        const f = all[k];
        if (e && f && crosses(e, f)) out.push({ at: e[0], says: `the walls of ${name} cross`, rooms: [name], over: null });
      }
    if (area(p) < 0.4) out.push({ at: p[0] ?? [0, 0], says: `${name} has no room left`, rooms: [name], over: null });
  }
  for (let i = 0; i < list.length; i += 1)
    for (let k = i + 1; k < list.length; k += 1) {
      const [a, p] = list[i] ?? ['', []];
      const [b, q] = list[k] ?? ['', []];
      const hits = overlap(p, q);
      if (hits.length === 0) continue;
      const over = box(hits);
      out.push({
        at: [(over.x0 + over.x1) / 2, (over.y0 + over.y1) / 2], rooms: [a, b], over,
        says: `${a} lies over ${b}, ${writeLength(over.x1 - over.x0, si)} by ${writeLength(over.y1 - over.y0, si)}`,
      });
    }
  return out;
}

/** The outlines that changed, as edits of the file; rooms that shrink go first. */
export function outlineEdits(before: Outlines, after: Outlines, si: boolean): { path: string; value: Value }[] {
  const changed = [...after].filter(([k, v]) => {
    const b = before.get(k);
    return !b || b.length !== v.length || v.some((p, i) => distance(p, b[i] ?? [NaN, NaN]) > 1e-6 || b[i] === undefined);
  });
  changed.sort((a, b) => area(a[1]) - area(before.get(a[0]) ?? []) - (area(b[1]) - area(before.get(b[0]) ?? [])));
  return changed.map(([k, v]) => ({ path: `room.${k}.outline`, value: v.map((p) => writePoint(p, si)) }));
}

export interface Snapped {
  value: number;
  /** A wall or corner it fell in line with; none where it fell on the grid. */
  line: number | null;
}

/** To a line of the drawing within reach, else to the grid. */
export function snap(value: number, lines: readonly number[], grid: number, reach: number): Snapped {
  let best: number | null = null;
  for (const l of lines) if (Math.abs(l - value) <= reach && (best === null || Math.abs(l - value) < Math.abs(best - value))) best = l;
  if (best !== null) return { value: best, line: best };
  return { value: Math.round(value / grid) * grid, line: null };
}

/** Lines to fall in with: every corner of the storey and of the one beneath. */
export function linesOf(of: Iterable<readonly Point[]>, way: 0 | 1): number[] {
  const all: number[] = [];
  for (const p of of) for (const q of p) if (!all.some((v) => near(v, q[way]))) all.push(q[way]);
  return all;
}
