// What is written on the plan and where: notes, words of each room, lengths. Nothing touches.

import type { Finding, Level } from '../api/shapes';
import { writeLength } from '../numbers/length';
import { LEVEL_WORD, roomOf } from '../sheets/set';
import type { Door, Head, Room } from './drawing';
import { placeLabel, wallLengths, wide, type LengthMark, type Line, type Placed, type Rect } from './labels';
import { area2, box, distance, edges, roomiest } from './shape';
import type { View } from './view.svelte';

/** A note on the drawing, keyed to the margin. */
export interface Spot {
  level: Level | 'more';
  n: string;
  pick: number;
  says: string;
  x: number;
  y: number;
}

export interface Given {
  rooms: readonly Room[];
  heads: readonly Head[];
  leaves: readonly Door[];
  findings: readonly Finding[];
  /** Sides of the house on which an outdoor unit stands. */
  walls: readonly string[];
  words: (r: Room) => Line[];
  drawing: boolean;
  inHand: string | undefined;
  si: boolean;
}

export function laid(given: Given, view: View): { spots: Spot[]; labels: (Placed & { room: string })[]; lengths: LengthMark[] } {
  const side = view.coarse ? 24 : 21;
  const spots: Spot[] = [];
  const labels: (Placed & { room: string })[] = [];
  let lengths: LengthMark[] = [];
  for (const r of given.rooms) {
    if (r.outline.length < 3) continue;
    const b = roomiest(r.outline);
    const rect: Rect = { x: view.X(b.x0), y: view.Y(b.y1), w: (b.x1 - b.x0) * view.k, h: (b.y1 - b.y0) * view.k };
    const blocks: Rect[] = [];
    const soft: Rect[] = [];
    for (const h of given.heads) {
      if (h.room !== r.name) continue;
      const p = view.at(h.at);
      blocks.push({ x: p[0] - 20, y: p[1] - 20, w: 40, h: 40 });
      const turn = ((h.blows ?? 180) * Math.PI) / 180;
      const tip = [p[0] + Math.sin(turn) * 2 * view.k, p[1] - Math.cos(turn) * 2 * view.k] as const;
      if (!given.drawing) soft.push({ x: Math.min(p[0], tip[0]) - 0.4 * view.k * Math.abs(Math.cos(turn)), y: Math.min(p[1], tip[1]) - 0.4 * view.k * Math.abs(Math.sin(turn)), w: Math.abs(tip[0] - p[0]) + 0.8 * view.k * Math.abs(Math.cos(turn)), h: Math.abs(tip[1] - p[1]) + 0.8 * view.k * Math.abs(Math.sin(turn)) });
    }
    for (const o of given.leaves) {
      if (!o.rooms.includes(r.name)) continue;
      const [p, q] = [view.at(o.a), view.at(o.b)];
      blocks.push({ x: Math.min(p[0], q[0]) - 5, y: Math.min(p[1], q[1]) - 5, w: Math.abs(p[0] - q[0]) + 10, h: Math.abs(p[1] - q[1]) + 10 });
    }
    if (given.drawing && given.inHand === r.name) {
      const turn = area2(r.outline) >= 0 ? 1 : -1;
      lengths = wallLengths(edges(r.outline).map((e) => {
        const l = distance(e[0], e[1]) || 1;
        return { a: view.at(e[0]), b: view.at(e[1]), text: writeLength(l, given.si), inward: [(-(e[1][1] - e[0][1]) / l) * turn, (-(e[1][0] - e[0][0]) / l) * turn] as [number, number] };
      }), blocks);
      blocks.push(...lengths.map((x) => x.rect));
    }
    if (!given.drawing) {
      const here = given.findings.filter((f) => f.level !== 'note' && roomOf(f) === r.name);
      const fits = Math.max(0, Math.floor((rect.w - 14) / (side + 5)));
      const show = here.length > fits ? Math.max(0, fits - 1) : here.length;
      const row: Omit<Spot, 'x' | 'y'>[] = here.slice(0, show).map((f) => ({ level: f.level, n: String(f.number), pick: f.number, says: `${LEVEL_WORD[f.level]} ${f.number}: ${f.says}` }));
      const more = here[show];
      if (more && fits > 0) row.push({ level: 'more', n: `+${here.length - show}`, pick: more.number, says: `${here.length - show} more notes on ${r.name}` });
      // Tries the top of the room, then its foot, for a strip that is free.
      const w = row.length * (side + 5);
      const tries = [rect.y + 9, rect.y + rect.h - side - 9];
      const y = tries.find((t) => rect.h > side + 30 && !blocks.some((o) => o.x < rect.x + rect.w - 7 && o.x + o.w > rect.x + rect.w - 7 - w && o.y < t + side && o.y + o.h > t)) ?? (rect.h > side + 30 ? tries[0] : undefined);
      if (y !== undefined) {
        row.forEach((m, i) => {
          const x = rect.x + rect.w - 9 - w + 5 + i * (side + 5);
          spots.push({ ...m, x, y });
        });
        if (row.length > 0) blocks.push({ x: rect.x + rect.w - 7 - w, y, w: w + 4, h: side });
      }
    }
    // Clear of the jet where that costs no line; across it otherwise.
    const clear = placeLabel(rect, given.words(r), [...blocks, ...soft]);
    const tight = placeLabel(rect, given.words(r), blocks);
    const label = clear && tight && clear.lines.length >= tight.lines.length ? clear : tight;
    if (label) labels.push({ room: r.name, ...label });
  }  return { spots, labels, lengths };
}

/** Chains of lengths, on the sides where no outdoor unit is. */
export function chains(given: Given, view: View): { line: string; text: string; tx: number; ty: number; turn: boolean }[] {
  if (given.rooms.length === 0 || view.low) return [];
  const b = box(given.rooms.flatMap((r) => r.outline));
  const taken = new Set(given.walls);
  const level = taken.has('north') && !taken.has('south') ? 'south' : 'north';
  const upright = taken.has('east') && !taken.has('west') ? 'west' : 'east';
  const all = given.rooms.flatMap((r) => r.outline);
  const uniq = (v: number[]) => [...v].sort((p, q) => p - q).filter((x, i, a) => i === 0 || x - (a[i - 1] ?? x) > 0.02);
  const xs = uniq(all.filter((p) => Math.abs(p[1] - (level === 'north' ? b.y1 : b.y0)) < 0.02).map((p) => p[0]));
  const ys = uniq(all.filter((p) => Math.abs(p[0] - (upright === 'east' ? b.x1 : b.x0)) < 0.02).map((p) => p[1]));
  const off = view.coarse ? 15 : 26;
  const y = level === 'north' ? view.Y(b.y1) - off : view.Y(b.y0) + off;
  const x = upright === 'east' ? view.X(b.x1) + off : view.X(b.x0) - off;
  const out: { line: string; text: string; tx: number; ty: number; turn: boolean }[] = [];
  const pair = (v: number[]) => v.slice(1).map((q, i): [number, number] => [v[i] ?? q, q]);
  for (const [p, q] of pair(xs)) {
    const text = writeLength(q - p, given.si);
    out.push({ line: `M${view.X(p)} ${y}H${view.X(q)}M${view.X(p)} ${y - 4}v8M${view.X(q)} ${y - 4}v8`, text: wide(text, 11.5) + 8 < (q - p) * view.k ? text : '', tx: (view.X(p) + view.X(q)) / 2, ty: level === 'north' ? y - 6 : y + 15, turn: false });
  }
  for (const [p, q] of pair(ys)) {
    const text = writeLength(q - p, given.si);
    out.push({ line: `M${x} ${view.Y(p)}V${view.Y(q)}M${x - 4} ${view.Y(p)}h8M${x - 4} ${view.Y(q)}h8`, text: wide(text, 11.5) + 8 < (q - p) * view.k ? text : '', tx: upright === 'east' ? x + 14 : x - 7, ty: (view.Y(p) + view.Y(q)) / 2, turn: true });
  }
  return out;

}
