// Where heads hang and outdoor units stand when they are put somewhere.

import { area2, distance, edges, type Box, type Point } from './shape';

/** Length and depth an outdoor unit is drawn with, and how far from the wall, m. */
const LONG = 0.9;
const DEEP = 0.36;
const OFF = 0.25;

/**
 * A head put near a wall hangs on it and blows away from it; one put in the middle of a room is a
 * ceiling head and stays. Direction in degrees clockwise from the plan's north.
 */
export function hang(outline: readonly Point[], p: Point, fine: number): { at: Point; blows: number } {
  const to = (v: number) => Math.round(v / fine) * fine;
  let best = { d: Infinity, at: p, blows: 0 };
  const turn = area2(outline) >= 0 ? 1 : -1;
  for (const e of edges(outline)) {
    const l = distance(e[0], e[1]);
    if (l < 0.6) continue;
    const u: Point = [(e[1][0] - e[0][0]) / l, (e[1][1] - e[0][1]) / l];
    const t = Math.max(0.3, Math.min(l - 0.3, to((p[0] - e[0][0]) * u[0] + (p[1] - e[0][1]) * u[1])));
    const q: Point = [e[0][0] + u[0] * t, e[0][1] + u[1] * t];
    const d = distance(p, q);
    if (d >= best.d) continue;
    const inward: Point = [-u[1] * turn, u[0] * turn];
    const blows = (Math.round((Math.atan2(inward[0], inward[1]) * 180) / Math.PI) + 360) % 360;
    best = { d, at: [q[0] + inward[0] * 0.1524, q[1] + inward[1] * 0.1524], blows };
  }
  return best.d < 0.7 ? { at: best.at, blows: best.blows } : { at: [to(p[0]), to(p[1])], blows: 180 };
}

/** The wall an outdoor unit is nearest to, and how far along it, from its left end seen from outside. */
export function stand(b: Box, p: Point, grid: number): { wall: string; along: number } {
  const off: [string, number][] = [['east', Math.abs(p[0] - b.x1)], ['west', Math.abs(p[0] - b.x0)], ['north', Math.abs(p[1] - b.y1)], ['south', Math.abs(p[1] - b.y0)]];
  const wall = off.sort((x, y) => x[1] - y[1])[0]?.[0] ?? 'east';
  const from = { east: p[1] - b.y0, west: b.y1 - p[1], south: p[0] - b.x0, north: b.x1 - p[0] }[wall] ?? 0;
  const long = wall === 'east' || wall === 'west' ? b.y1 - b.y0 : b.x1 - b.x0;
  return { wall, along: Math.max(0, Math.min(long - LONG, Math.round((from - LONG / 2) / grid) * grid)) };
}

/** West, south, width and depth of an outdoor unit on the plan, m. */
export function footprint(b: Box, wall: string, along: number): [number, number, number, number] {
  switch (wall) {
    case 'west': return [b.x0 - OFF - DEEP, b.y1 - along - LONG, DEEP, LONG];
    case 'south': return [b.x0 + along, b.y0 - OFF - DEEP, LONG, DEEP];
    case 'north': return [b.x1 - along - LONG, b.y1 + OFF, LONG, DEEP];
    default: return [b.x1 + OFF, b.y0 + along, DEEP, LONG];
  }
}
