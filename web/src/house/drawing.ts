// From the values of the job file to what is drawn. Nothing here is physics; it is where lines go.

import { readLength, readPoint } from '../numbers/length';
import { box, distance, edges, faces, shared, wallsNamed, type Box, type Compass, type Point } from './shape';
import { rows, word, type Tree } from './values';

export interface Room {
  name: string;
  storey: string;
  outline: Point[];
  heated: boolean;
  usedFor: string;
  heatedTo: string;
  row: number;
}

export interface Stretch {
  room: string;
  a: Point;
  b: Point;
  outside: boolean;
  /** The room on the other side. */
  other?: string;
}

export interface Opening {
  kind: 'window' | 'outer_door';
  /** Number of its row in the file, from 1. */
  row: number;
  room: string;
  a: Point;
  b: Point;
  /** Left end of its wall seen from inside, and the direction along it. */
  wall: { from: Point; to: Point; index: number };
  width: number;
  way: Compass;
  name: string;
  /** Whether its place along the wall is said, or only shared out evenly. */
  placed: boolean;
}

export interface Door {
  rooms: [string, string];
  a: Point;
  b: Point;
  usually: string;
  path: string;
}

export interface Head {
  room: string;
  unit: string;
  at: Point;
  blows: number | null;
  placed: boolean;
}

export interface Storey {
  name: string;
  rooms: Room[];
}

export interface Drawing {
  storeys: Storey[];
  rooms: Room[];
  heads: Head[];
  /** Turn of true north from the top of the sheet, degrees clockwise. */
  north: number;
}

export function drawing(values: Tree): Drawing {
  const rooms = rows(values, 'room').map((r, i) => ({
    name: word(r, 'name'),
    storey: word(r, 'storey'),
    outline: outline(r),
    heated: r['heated_to'] !== undefined,
    usedFor: word(r, 'used_for') || 'living',
    heatedTo: typeof r['heated_to'] === 'string' ? r['heated_to'] : '',
    row: i + 1,
  }));
  const storeys = rows(values, 'storey').map((s) => {
    const name = word(s, 'name');
    return { name, rooms: rooms.filter((r) => r.storey === name) };
  });
  const place = values['place'];
  const north = parseFloat(word(typeof place === 'object' && place !== null && !Array.isArray(place) ? place : undefined, 'plan_north'));
  return { storeys, rooms, heads: heads(values, rooms), north: Number.isFinite(north) ? -north : 0 };
}

export function outline(room: Tree): Point[] {
  const list = room['outline'];
  if (!Array.isArray(list)) return [];
  return list.map((p) => (typeof p === 'string' ? readPoint(p) : null)).filter((p): p is Point => p !== null);
}

/** Every wall in the stretches it has: to outside, or to one room. */
export function stretches(rooms: readonly Room[]): Stretch[] {
  const out: Stretch[] = [];
  for (const r of rooms) {
    for (const e of edges(r.outline)) {
      const length = distance(e[0], e[1]);
      if (length === 0) continue;
      const at = (t: number): Point => [
        e[0][0] + ((e[1][0] - e[0][0]) * t) / length,
        e[0][1] + ((e[1][1] - e[0][1]) * t) / length,
      ];
      const runs: { from: number; to: number; other: string }[] = [];
      for (const o of rooms) {
        if (o === r) continue;
        for (const f of edges(o.outline)) {
          const s = shared(e, f);
          if (s) runs.push({ from: s[0], to: s[1], other: o.name });
        }
      }
      runs.sort((p, q) => p.from - q.from);
      let done = 0;
      for (const run of runs) {
        if (run.from - done > 0.02) out.push({ room: r.name, a: at(done), b: at(run.from), outside: true });
        out.push({ room: r.name, a: at(run.from), b: at(run.to), outside: false, other: run.other });
        done = Math.max(done, run.to);
      }
      if (length - done > 0.02) out.push({ room: r.name, a: at(done), b: at(length), outside: true });
    }
  }
  return out;
}

/** Windows and outer doors of a storey, where they stand or shared out along their wall. */
export function openings(values: Tree, rooms: readonly Room[]): Opening[] {
  const found: (Opening & { wallKey: string })[] = [];
  for (const kind of ['window', 'outer_door'] as const) {
    rows(values, kind).forEach((w, i) => {
      const room = rooms.find((r) => r.name === word(w, 'room'));
      if (!room) return;
      const walls = wallsNamed(room.outline, word(w, 'wall'));
      const outside = walls.filter((k) => stretchesOf(rooms, room, k).some((s) => s.outside));
      const index = (outside.length > 0 ? outside : walls)[0];
      if (index === undefined) return;
      const e = edges(room.outline)[index];
      if (!e) return;
      const width = readLength(word(w, 'width')) ?? (kind === 'window' ? 0.9 : 0.9144);
      const count = Math.max(1, Math.min(20, Number(w['count'] ?? 1) || 1));
      const left = readLength(word(w, 'from_left'));
      const wall = seenFromInside(room.outline, index, e);
      for (let n = 0; n < count; n += 1) {
        const start = left === null ? -1 : left + n * width * 1.5;
        found.push({
          kind, row: i + 1, room: room.name, width, way: faces(room.outline, index), wall: { ...wall, index },
          name: word(w, 'name') || `${kind === 'window' ? 'window' : 'door'} ${faces(room.outline, index)}`,
          a: along(wall, start), b: along(wall, start + width), placed: left !== null,
          wallKey: `${room.name}.${index}`,
        });
      }
    });
  }
  // What has no place of its own is shared out evenly over the outside stretch of its wall.
  for (const key of new Set(found.map((o) => o.wallKey))) {
    const loose = found.filter((o) => o.wallKey === key && !o.placed);
    const first = loose[0];
    const room = rooms.find((r) => r.name === first?.room);
    if (!first || !room) continue;
    const free = stretchesOf(rooms, room, first.wall.index).filter((s) => s.outside)
      .sort((p, q) => distance(q.a, q.b) - distance(p.a, p.b))[0];
    const ends = free ? [distance(first.wall.from, free.a), distance(first.wall.from, free.b)] : [0, distance(first.wall.from, first.wall.to)];
    const from = Math.min(...ends);
    const to = Math.max(...ends);
    loose.forEach((o, k) => {
      const middle = from + ((to - from) * (k + 0.5)) / loose.length;
      const half = Math.min(o.width / 2, ((to - from) * 0.48) / loose.length);
      o.a = along(o.wall, middle - half);
      o.b = along(o.wall, middle + half);
    });
  }
  return found;
}

function stretchesOf(rooms: readonly Room[], room: Room, index: number): Stretch[] {
  const e = edges(room.outline)[index];
  if (!e) return [];
  return stretches(rooms).filter((s) => s.room === room.name && shared(e, [s.a, s.b]) !== null);
}

/** The wall with its left end first, as one who stands inside sees it. */
function seenFromInside(p: readonly Point[], index: number, e: [Point, Point]): { from: Point; to: Point } {
  const way = faces(p, index);
  const leftFirst = { north: e[0][0] < e[1][0], south: e[0][0] > e[1][0], east: e[0][1] > e[1][1], west: e[0][1] < e[1][1] }[way];
  return leftFirst ? { from: e[0], to: e[1] } : { from: e[1], to: e[0] };
}

export function along(wall: { from: Point; to: Point }, m: number): Point {
  const l = distance(wall.from, wall.to) || 1;
  return [wall.from[0] + ((wall.to[0] - wall.from[0]) * m) / l, wall.from[1] + ((wall.to[1] - wall.from[1]) * m) / l];
}

/** Doors between rooms of a storey, in the middle of the wall they share. */
export function doors(values: Tree, rooms: readonly Room[]): Door[] {
  const out: Door[] = [];
  const taken = new Map<string, number>();
  const add = (from: string, to: string, width: number, usually: string, path: string) => {
    const walls = stretches(rooms).filter((s) => s.room === from && s.other === to)
      .sort((p, q) => distance(q.a, q.b) - distance(p.a, p.b));
    const wall = walls[0];
    if (!wall) return;
    const key = [from, to].sort().join('|');
    const n = taken.get(key) ?? 0;
    taken.set(key, n + 1);
    const length = distance(wall.a, wall.b);
    const middle = length * (n === 0 ? 0.5 : n === 1 ? 0.2 : 0.8);
    const half = Math.min(width, length * 0.9) / 2;
    const line = { from: wall.a, to: wall.b };
    out.push({ rooms: [from, to], a: along(line, middle - half), b: along(line, middle + half), usually, path });
  };
  for (const r of rows(values, 'room')) {
    rows(r, 'door_to').forEach((d, i) => {
      add(word(r, 'name'), word(d, 'room'), readLength(word(d, 'width')) ?? 0.762, word(d, 'usually') || 'open', `room.${word(r, 'name')}.door_to.${i + 1}`);
    });
  }
  rows(values, 'door').forEach((d, i) => {
    const pair = d['rooms'];
    if (!Array.isArray(pair)) return;
    const [a, b] = pair;
    if (typeof a === 'string' && typeof b === 'string')
      add(a, b, readLength(word(d, 'width')) ?? 0.762, word(d, 'usually') || 'open', `door.${i + 1}`);
  });
  return out;
}

function heads(values: Tree, rooms: readonly Room[]): Head[] {
  const places = rows(values, 'head_place');
  return rows(values, 'head').flatMap((h) => {
    const name = word(h, 'name') || word(h, 'room');
    const room = rooms.find((r) => r.name === word(h, 'room'));
    if (!room) return [];
    const place = places.find((p) => word(p, 'head') === name);
    const at = readPoint(word(place, 'at'));
    const b = box(room.outline);
    const blows = parseFloat(word(place, 'blows'));
    return [{
      room: room.name, unit: word(h, 'unit'), placed: at !== null,
      at: at ?? [(b.x0 + b.x1) / 2, b.y1 - 0.3], blows: Number.isFinite(blows) ? blows : null,
    }];
  });
}

export interface OutdoorUnit {
  name: string;
  unit: string;
  wall: string;
  along: number | null;
}

export function outdoors(values: Tree): OutdoorUnit[] {
  const places = rows(values, 'outdoor_place');
  return rows(values, 'outdoor').map((o) => {
    const place = places.find((p) => word(p, 'outdoor') === word(o, 'name'));
    return { name: word(o, 'name'), unit: word(o, 'unit'), wall: word(place, 'wall'), along: readLength(word(place, 'along')) };
  });
}

export function extent(rooms: readonly Room[]): Box {
  return box(rooms.flatMap((r) => r.outline));
}
