// Outlines on a storey: what the drawing board asks of them. Lengths in metres, east and north.

export type Point = [number, number];
export type Compass = 'north' | 'east' | 'south' | 'west';

/** Closer than this, two walls are one wall, m. */
export const TOUCH = 0.004;

export function area2(p: readonly Point[]): number {
  let sum = 0;
  p.forEach((a, i) => {
    const b = p[(i + 1) % p.length] ?? a;
    sum += a[0] * b[1] - b[0] * a[1];
  });
  return sum;
}

export const area = (p: readonly Point[]) => Math.abs(area2(p)) / 2;

export function edges(p: readonly Point[]): [Point, Point][] {
  return p.map((a, i) => [a, p[(i + 1) % p.length] ?? a]);
}

/** Which way the wall from a to b faces outwards. */
export function faces(p: readonly Point[], i: number): Compass {
  const e = edges(p)[i];
  if (!e) return 'north';
  const turn = area2(p) >= 0 ? 1 : -1;
  const nx = (e[1][1] - e[0][1]) * turn;
  const ny = (e[0][0] - e[1][0]) * turn;
  if (Math.abs(nx) > Math.abs(ny)) return nx > 0 ? 'east' : 'west';
  return ny > 0 ? 'north' : 'south';
}

/** How the file names a wall: by the way it faces where only one does, else by its number. */
export function wallName(p: readonly Point[], i: number): Compass | number {
  const way = faces(p, i);
  return p.filter((_, k) => faces(p, k) === way).length === 1 ? way : i + 1;
}

/** The walls a name of the file means. */
export function wallsNamed(p: readonly Point[], name: string | number): number[] {
  const n = Number(name);
  if (Number.isInteger(n) && n >= 1) return n <= p.length ? [n - 1] : [];
  return p.map((_, i) => i).filter((i) => faces(p, i) === name);
}

export const distance = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Stretch that two edges share, along the first: from and to, in metres; none if they do not touch. */
export function shared(e: [Point, Point], f: [Point, Point]): [number, number] | null {
  const length = distance(e[0], e[1]);
  if (length < TOUCH) return null;
  const d: Point = [(e[1][0] - e[0][0]) / length, (e[1][1] - e[0][1]) / length];
  const off = (q: Point) => Math.abs((q[0] - e[0][0]) * d[1] - (q[1] - e[0][1]) * d[0]);
  if (off(f[0]) > 0.02 || off(f[1]) > 0.02) return null;
  const along = (q: Point) => (q[0] - e[0][0]) * d[0] + (q[1] - e[0][1]) * d[1];
  const a = Math.max(0, Math.min(along(f[0]), along(f[1])));
  const b = Math.min(length, Math.max(along(f[0]), along(f[1])));
  return b - a > 0.05 ? [a, b] : null;
}

function side(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/** Whether two walls cross or touch other than at their ends in common. */
export function crosses(e: [Point, Point], f: [Point, Point]): boolean {
  const [a, b] = e;
  const [c, d] = f;
  const s1 = side(a, b, c);
  const s2 = side(a, b, d);
  const s3 = side(c, d, a);
  const s4 = side(c, d, b);
  const tiny = 1e-9;
  return s1 * s2 < -tiny && s3 * s4 < -tiny;
}

export function inside(p: readonly Point[], q: Point): boolean {
  let odd = false;
  for (const [a, b] of edges(p)) {
    if (a[1] > q[1] !== b[1] > q[1] && q[0] < ((b[0] - a[0]) * (q[1] - a[1])) / (b[1] - a[1]) + a[0]) odd = !odd;
  }
  return odd;
}

function nearEdge(p: readonly Point[], q: Point, within: number): boolean {
  return edges(p).some(([a, b]) => {
    const l2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2;
    const t = l2 === 0 ? 0 : Math.max(0, Math.min(1, ((q[0] - a[0]) * (b[0] - a[0]) + (q[1] - a[1]) * (b[1] - a[1])) / l2));
    return Math.hypot(a[0] + t * (b[0] - a[0]) - q[0], a[1] + t * (b[1] - a[1]) - q[1]) < within;
  });
}

/**
 * A place where both outlines are, deeper than a wall meets a wall; none if they only touch.
 * Looks at a lattice of the lines of both: exact for walls at right angles.
 */
export function overlap(p: readonly Point[], q: readonly Point[]): Point[] {
  const both = [...p, ...q];
  const xs = lines(both.map((v) => v[0]));
  const ys = lines(both.map((v) => v[1]));
  const hits: Point[] = [];
  for (let i = 0; i + 1 < xs.length; i += 1) {
    for (let k = 0; k + 1 < ys.length; k += 1) {
      const x0 = xs[i] ?? 0;
      const x1 = xs[i + 1] ?? 0;
      const y0 = ys[k] ?? 0;
      const y1 = ys[k + 1] ?? 0;
      if (x1 - x0 < 0.02 || y1 - y0 < 0.02) continue;
      const m: Point = [(x0 + x1) / 2, (y0 + y1) / 2];
      if (inside(p, m) && inside(q, m) && !nearEdge(p, m, 0.008) && !nearEdge(q, m, 0.008)) {
        hits.push([x0, y0], [x1, y1]);
      }
    }
  }
  return hits;
}

function lines(v: number[]): number[] {
  const sorted = [...v].sort((a, b) => a - b);
  return sorted.filter((x, i) => i === 0 || x - (sorted[i - 1] ?? x) > TOUCH);
}

export interface Box {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

export function box(points: readonly Point[]): Box {
  const out = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const [x, y] of points) {
    out.x0 = Math.min(out.x0, x);
    out.y0 = Math.min(out.y0, y);
    out.x1 = Math.max(out.x1, x);
    out.y1 = Math.max(out.y1, y);
  }
  return Number.isFinite(out.x0) ? out : { x0: 0, y0: 0, x1: 10, y1: 8 };
}

/** The largest upright box of free space inside an outline, roughly: where its words go. */
export function roomiest(p: readonly Point[]): Box {
  const xs = lines(p.map((v) => v[0]));
  const ys = lines(p.map((v) => v[1]));
  let best = box(p);
  let most = -1;
  for (let i = 0; i < xs.length; i += 1)
    for (let j = i + 1; j < xs.length; j += 1)
      for (let k = 0; k < ys.length; k += 1)
        for (let l = k + 1; l < ys.length; l += 1) {
          const b = { x0: xs[i] ?? 0, x1: xs[j] ?? 0, y0: ys[k] ?? 0, y1: ys[l] ?? 0 };
          const size = (b.x1 - b.x0) * (b.y1 - b.y0);
          if (size <= most || !whole(p, b, xs, ys)) continue;
          most = size;
          best = b;
        }
  return best;
}

function whole(p: readonly Point[], b: Box, xs: number[], ys: number[]): boolean {
  for (let i = 0; i + 1 < xs.length; i += 1) {
    const x = ((xs[i] ?? 0) + (xs[i + 1] ?? 0)) / 2;
    if (x < b.x0 || x > b.x1) continue;
    for (let k = 0; k + 1 < ys.length; k += 1) {
      const y = ((ys[k] ?? 0) + (ys[k + 1] ?? 0)) / 2;
      if (y > b.y0 && y < b.y1 && !inside(p, [x, y])) return false;
    }
  }
  return true;
}
