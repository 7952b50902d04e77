// Which number is unfolded, and where it stands on the screen.

import type { Why } from '../api/shapes';
import { desk } from '../desk/desk.svelte';

class Unfold {
  key = $state('');
  what = $state('');
  answer = $state.raw<Why | string | null>(null);
  anchor = $state.raw<Element | null>(null);

  async open(key: string, what: string, anchor: Element): Promise<void> {
    if (this.key === key && this.anchor === anchor) {
      this.close();
      return;
    }
    this.key = key;
    this.what = what;
    this.anchor = anchor;
    this.answer = null;
    const answer = await desk.why(key);
    if (this.key === key) this.answer = answer;
  }

  close(): void {
    const anchor = this.anchor;
    this.key = '';
    this.anchor = null;
    this.answer = null;
    if (anchor instanceof HTMLElement || anchor instanceof SVGElement) anchor.focus();
  }
}

export const unfold = new Unfold();
