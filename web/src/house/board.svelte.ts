// The drawing board: what is in hand, and the outlines while they are moved.

import { desk } from '../desk/desk.svelte';
import { writeLength, writePoint } from '../numbers/length';
import { drawing, type Drawing, type Room } from './drawing';
import { outlineEdits, outlines, troubles, type Outlines, type Trouble } from './moves';
import { area2, box, distance, edges, faces, type Point } from './shape';
import { rows, word, type Tree, type Value } from './values';

export type Hand =
  | { kind: 'room'; room: string }
  | { kind: 'wall'; room: string; index: number }
  | { kind: 'opening'; of: 'window' | 'outer_door'; row: number }
  | { kind: 'door'; path: string };

class Board {
  drawing = $state(false);
  tool = $state<'move' | 'box' | 'corners' | 'slide' | 'measure'>('move');
  storey = $state('');
  hand = $state.raw<Hand | null>(null);
  moved = $state.raw<Outlines | null>(null);
  /** Corners of a room that is being drawn. */
  fresh = $state.raw<Point[]>([]);
  note = $state('');

  plan = $derived<Drawing>(drawing(desk.values));
  rooms = $derived<Room[]>(
    this.plan.rooms.filter((r) => r.storey === this.storey).map((r) => ({ ...r, outline: this.moved?.get(r.name) ?? r.outline })),
  );
  before = $derived<Outlines>(outlines(this.plan.rooms.filter((r) => r.storey === this.storey)));
  troubles = $derived<Trouble[]>(this.drawing ? troubles(this.#all(), desk.si) : []);
  grid = $derived(desk.si ? 0.1 : 0.1524);
  fine = $derived(desk.si ? 0.01 : 0.0254);
  beneath = $derived.by<Room[]>(() => {
    const i = this.plan.storeys.findIndex((s) => s.name === this.storey);
    return this.plan.storeys[i - 1]?.rooms ?? [];
  });

  #all(): Outlines {
    const all = new Map(this.moved ?? this.before);
    if (this.fresh.length === 4 && this.tool === 'box') all.set('the new room', this.fresh);
    return all;
  }

  /** The storey to begin with: the lowest that is lived in. */
  begin(): void {
    const s = this.plan.storeys;
    if (s.some((x) => x.name === this.storey)) return;
    this.storey = (s.find((x) => x.rooms.some((r) => r.heated)) ?? s[0])?.name ?? '';
    this.hand = null;
  }

  take(hand: Hand | null): void {
    this.hand = hand;
    this.note = '';
  }

  async drop(says: string): Promise<void> {
    const moved = this.moved;
    if (!moved) return;
    const wrong = troubles(moved, desk.si)[0];
    if (wrong) {
      this.moved = null;
      desk.endTrial();
      this.note = `Put back: ${wrong.says}.`;
      return;
    }
    const edits = outlineEdits(this.before, moved, desk.si);
    const change = desk.change(says, edits);
    this.moved = null;
    await change;
  }

  async addRoom(name: string, p: Point[], says = 'drawn'): Promise<boolean> {
    const trial = new Map(this.before);
    trial.set(name, p);
    const wrong = troubles(trial, desk.si)[0];
    if (wrong) {
      this.note = `Not drawn: ${wrong.says}.`;
      return false;
    }
    const anticlockwise = area2(p) >= 0 ? p : [...p].reverse();
    await desk.change(`${name} ${says}`, [
      { path: 'room', value: { name, storey: this.storey, outline: anticlockwise.map((q) => writePoint(q, desk.si)), heated_to: desk.si ? '20 C' : '68 F' } },
    ]);
    this.hand = { kind: 'room', room: name };
    return true;
  }

  /** A name that is free. */
  freeName(wanted: string): string {
    const taken = new Set(this.plan.rooms.map((r) => r.name));
    if (!taken.has(wanted)) return wanted;
    for (let i = 2; ; i += 1) if (!taken.has(`${wanted} ${i}`)) return `${wanted} ${i}`;
  }

  async removeRoom(room: string): Promise<void> {
    const v = desk.values;
    const edits: { path: string; value: Value }[] = [];
    for (const key of ['window', 'outer_door', 'wall', 'vent', 'head']) takeOut(v, key, edits, (r) => word(r, 'room') === room);
    takeOut(v, 'head_place', edits, (r) => word(r, 'head') === room);
    takeOut(v, 'line', edits, (r) => word(r, 'head') === room);
    takeOut(v, 'drain', edits, (r) => word(r, 'head') === room);
    takeOut(v, 'door', edits, (r) => Array.isArray(r['rooms']) && r['rooms'].includes(room));
    for (const r of rows(v, 'room')) {
      const doors = rows(r, 'door_to');
      const left = doors.filter((d) => word(d, 'room') !== room);
      if (left.length !== doors.length && word(r, 'name') !== room)
        edits.push({ path: `room.${word(r, 'name')}.door_to`, value: left.length > 0 ? left : null });
    }
    edits.push({ path: `room.${room}`, value: null });
    this.hand = null;
    await desk.change(`${room} taken out`, edits);
  }

  async rename(room: string, name: string): Promise<void> {
    const v = desk.values;
    const edits: { path: string; value: Value }[] = [];
    for (const key of ['window', 'outer_door', 'wall', 'vent', 'head'])
      rows(v, key).forEach((r, i) => {
        if (word(r, 'room') === room) edits.push({ path: `${key}.${i + 1}.room`, value: name });
      });
    for (const key of ['head_place', 'line', 'drain'])
      rows(v, key).forEach((r, i) => {
        if (word(r, 'head') === room) edits.push({ path: `${key}.${i + 1}.head`, value: name });
      });
    rows(v, 'door').forEach((r, i) => {
      const pair = r['rooms'];
      if (Array.isArray(pair) && pair.includes(room)) edits.push({ path: `door.${i + 1}.rooms`, value: pair.map((x) => (x === room ? name : x)) });
    });
    for (const r of rows(v, 'room'))
      rows(r, 'door_to').forEach((d, i) => {
        if (word(d, 'room') === room) edits.push({ path: `room.${word(r, 'name')}.door_to.${i + 1}.room`, value: name });
      });
    for (const o of rows(v, 'option')) {
      for (const [key, of] of [['heads', 'room'], ['head_places', 'head'], ['lines', 'head'], ['drains', 'head']] as const)
        rows(o, key).forEach((r, i) => {
          if (word(r, of) === room) edits.push({ path: `option.${word(o, 'name')}.${key}.${i + 1}.${of}`, value: name });
        });
    }
    edits.push({ path: `room.${room}.name`, value: name });
    this.hand = { kind: 'room', room: name };
    await desk.change(`${room} is now ${name}`, edits);
  }

  /** The room in hand, or whose wall is. */
  get roomInHand(): Room | undefined {
    const h = this.hand;
    return h && (h.kind === 'room' || h.kind === 'wall') ? this.rooms.find((r) => r.name === h.room) : undefined;
  }

  wallLabel(room: Room, index: number): string {
    const e = edges(room.outline)[index];
    return e ? `${faces(room.outline, index)} wall of ${room.name}, ${writeLength(distance(e[0], e[1]), desk.si)}` : '';
  }

  /** Where a new room would stand: beside what is there. */
  beside(width: number, depth: number): Point[] {
    const b = this.rooms.length > 0 ? box(this.rooms.flatMap((r) => r.outline)) : { x0: 0, y0: 0, x1: 0, y1: 0 };
    return [[b.x1, b.y0], [b.x1 + width, b.y0], [b.x1 + width, b.y0 + depth], [b.x1, b.y0 + depth]];
  }
}

/** Rows of a list that match, taken out from the last so that numbers stay true. */
function takeOut(v: Tree, key: string, edits: { path: string; value: Value }[], match: (r: Tree) => boolean): void {
  const hits = rows(v, key).map((r, i) => (match(r) ? i + 1 : 0)).filter((n) => n > 0);
  for (const n of hits.reverse()) edits.push({ path: `${key}.${n}`, value: null });
}

export const board = new Board();
