// Words into rooms so that nothing collides: a label tries its places in turn and gives up lines
// before it would touch another.

export interface Rect {
  x: number;
  y: number;
  w: number;
  h: number;
}

export interface Line {
  text: string;
  size: number;
  bold?: boolean;
  soft?: boolean;
  why?: string;
}

export interface Placed {
  x: number;
  y: number;
  lines: Line[];
}

export const LINE = 17;

/** Width of a text in px, a little on the wide side. */
export function wide(text: string, size: number, bold = false): number {
  return text.length * size * (bold ? 0.585 : 0.555);
}

export function meet(a: Rect, b: Rect, apart = 2): boolean {
  return a.x < b.x + b.w + apart && b.x < a.x + a.w + apart && a.y < b.y + b.h + apart && b.y < a.y + a.h + apart;
}

function cut(line: Line, room: number): Line | null {
  if (wide(line.text, line.size, line.bold) <= room) return line;
  if (!line.bold) return null;
  for (let n = line.text.length - 1; n >= 3; n -= 1) {
    const text = `${line.text.slice(0, n)}.`;
    if (wide(text, line.size, true) <= room) return { ...line, text };
  }
  return null;
}

/** Where the lines go within the room's box; fewer lines where there is not the space. */
export function placeLabel(box: Rect, wanted: readonly Line[], obstacles: readonly Rect[], pad = 9): Placed | null {
  const free = { x: box.x + pad, y: box.y + pad, w: box.w - 2 * pad, h: box.h - 2 * pad };
  const fitting = wanted.map((l) => cut(l, free.w)).filter((l): l is Line => l !== null);
  for (let n = fitting.length; n >= 1; n -= 1) {
    const lines = fitting.slice(0, n);
    const h = n * LINE;
    const w = Math.max(...lines.map((l) => wide(l.text, l.size, l.bold)));
    if (h > free.h || w > free.w) continue;
    const xs = [free.x, free.x + (free.w - w) / 2, free.x + free.w - w];
    const middle = free.y + (free.h - h) / 2;
    const ys = [middle];
    for (let d = 6; d <= (free.h - h) / 2 + 1; d += 6) ys.push(Math.min(middle + d, free.y + free.h - h), Math.max(middle - d, free.y));
    for (const x of xs) {
      for (const y of ys) {
        const here = { x, y, w, h };
        if (!obstacles.some((o) => meet(here, o))) return { x, y, lines };
      }
    }
  }
  return null;
}

export interface LengthMark {
  x: number;
  y: number;
  text: string;
  turn: boolean;
  rect: Rect;
}

/**
 * The length of each wall, along its inside. It slides along the wall to where it is free, and is
 * left out where the wall is too short for it.
 */
export function wallLengths(walls: readonly { a: [number, number]; b: [number, number]; inward: [number, number]; text: string }[], obstacles: readonly Rect[], size = 13): LengthMark[] {
  const out: LengthMark[] = [];
  for (const w of walls) {
    const long = Math.hypot(w.b[0] - w.a[0], w.b[1] - w.a[1]);
    const turn = Math.abs(w.b[1] - w.a[1]) > Math.abs(w.b[0] - w.a[0]);
    const need = wide(w.text, size);
    if (long < need + 26) continue;
    for (const t of [0.5, 0.3, 0.7, 0.2, 0.8]) {
      if (Math.min(t, 1 - t) * long < need / 2 + 10) continue;
      const x = w.a[0] + t * (w.b[0] - w.a[0]) + w.inward[0] * 15;
      const y = w.a[1] + t * (w.b[1] - w.a[1]) + w.inward[1] * 15;
      const rect = turn ? { x: x - 8, y: y - need / 2, w: 16, h: need } : { x: x - need / 2, y: y - 8, w: need, h: 16 };
      if (obstacles.some((o) => meet(rect, o, 1)) || out.some((o) => meet(rect, o.rect, 2))) continue;
      out.push({ x, y, text: w.text, turn, rect });
      break;
    }
  }
  return out;
}
