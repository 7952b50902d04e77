// The notes: which is looked at, and where its place is.

import type { Finding, Level } from '../api/shapes';
import { desk } from '../desk/desk.svelte';
import { roomOf, sheetOf } from '../sheets/set';

class Notes {
  picked = $state<number | null>(null);
  drawer = $state<'shut' | 'peek' | 'open'>('shut');
  level = $state<Level | 'all'>('all');
  everywhere = $state(false);

  of(sheet: string): Finding[] {
    const all = desk.plan?.findings ?? [];
    return this.everywhere ? all : all.filter((f) => sheetOf(f) === sheet);
  }

  get finding(): Finding | null {
    return desk.plan?.findings.find((f) => f.number === this.picked) ?? null;
  }

  get room(): string {
    const f = this.finding;
    return f ? roomOf(f) : '';
  }

  pick(n: number | null): void {
    this.picked = n;
    if (n !== null) {
      const f = this.finding;
      if (f && this.level !== 'all' && this.level !== f.level) this.level = 'all';
      if (this.drawer === 'shut') this.drawer = 'peek';
    }
  }
}

export const notes = new Notes();
