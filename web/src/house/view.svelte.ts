// Where the drawing lies on the paper: scale and place, pinch and pan.

import type { Box, Point } from './shape';

export class View {
  width = $state(700);
  height = $state(480);
  /** Pixels to the metre. */
  k = $state(30);
  ox = $state(0);
  oy = $state(0);
  /** The person has moved it; it is not fitted anew until asked. */
  own = $state(false);
  /** What a drawer hides of the foot, px. */
  under = $state(0);
  panned = 0;
  #fingers = new Map<number, { x: number; y: number }>();

  coarse = $derived(this.width < 560);
  low = $derived(this.height - this.under < 300);

  X = (m: number): number => this.ox + m * this.k;
  Y = (m: number): number => this.oy - m * this.k;
  at = (p: Point): [number, number] => [this.X(p[0]), this.Y(p[1])];

  /** A path through points of the plan. */
  path = (points: readonly Point[], close = true): string =>
    points.map((p, i) => `${i === 0 ? 'M' : 'L'}${this.X(p[0]).toFixed(1)} ${this.Y(p[1]).toFixed(1)}`).join('') + (close ? 'Z' : '');

  /** The whole of a box of the plan, with space around for lengths and outdoor units. */
  fit(b: Box): void {
    const aside = this.coarse ? 40 : 92;
    const top = this.low ? 34 : this.coarse ? 80 : 88;
    const foot = (this.low ? 18 : this.coarse ? 62 : 66) + this.under;
    const w = Math.max(1, b.x1 - b.x0);
    const h = Math.max(1, b.y1 - b.y0);
    this.k = Math.max(4, Math.min((this.width - 2 * aside) / w, (this.height - top - foot) / h, 90));
    this.ox = aside + (this.width - 2 * aside - w * this.k) / 2 - b.x0 * this.k;
    this.oy = top + (this.height - top - foot - h * this.k) / 2 + b.y1 * this.k;
    this.own = false;
  }

  zoom(by: number, cx = this.width / 2, cy = this.height / 2): void {
    const next = Math.max(6, Math.min(260, this.k * by));
    this.ox = cx - ((cx - this.ox) * next) / this.k;
    this.oy = cy - ((cy - this.oy) * next) / this.k;
    this.k = next;
    this.own = true;
  }

  pan(dx: number, dy: number): void {
    this.ox += dx;
    this.oy += dy;
    this.own = true;
  }

  /** A tap, not the end of a pan. */
  get still(): boolean {
    return this.panned <= 5;
  }

  clear(): void {
    this.#fingers.clear();
  }

  down = (e: PointerEvent): void => {
    if (e.button > 1) return;
    this.#fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
    this.panned = 0;
  };

  /** One finger on paper pans; two pinch. */
  move = (e: PointerEvent & { currentTarget: Element }): void => {
    const f = this.#fingers.get(e.pointerId);
    if (!f) return;
    const dx = e.clientX - f.x;
    const dy = e.clientY - f.y;
    const other = [...this.#fingers].find(([id]) => id !== e.pointerId)?.[1];
    if (!other) {
      this.panned += Math.abs(dx) + Math.abs(dy);
      if (!this.still) this.pan(dx, dy);
    } else {
      const b = e.currentTarget.getBoundingClientRect();
      const before = Math.hypot(f.x - other.x, f.y - other.y) || 1;
      const now = Math.hypot(e.clientX - other.x, e.clientY - other.y);
      this.zoom(now / before, (e.clientX + other.x) / 2 - b.left, (e.clientY + other.y) / 2 - b.top);
      this.pan(dx / 2, dy / 2);
      this.panned = 99;
    }
    this.#fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
  };

  up = (e: PointerEvent): void => {
    this.#fingers.delete(e.pointerId);
  };

  wheel = (e: WheelEvent & { currentTarget: Element }): void => {
    if (!e.ctrlKey && !e.metaKey) return;
    e.preventDefault();
    const b = e.currentTarget.getBoundingClientRect();
    this.zoom(Math.exp(-e.deltaY / 300), e.clientX - b.left, e.clientY - b.top);
  };

  /** Keys on the paper itself; true where one was used. */
  key(key: string, all: Box): boolean {
    const step: Record<string, [number, number]> = { ArrowLeft: [40, 0], ArrowRight: [-40, 0], ArrowUp: [0, 40], ArrowDown: [0, -40] };
    const s = step[key];
    if (s) this.pan(...s);
    else if (key === '+' || key === '=') this.zoom(1.25);
    else if (key === '-') this.zoom(0.8);
    else if (key === '0') this.fit(all);
    else return false;
    return true;
  }
}
