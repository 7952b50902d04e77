// A photo or scan under the drawing: where it lies and how large it is. It stays on this device.

import { shelf } from '../desk/outbox';
import { readLength } from '../numbers/length';
import { smaller } from '../survey/photo';
import type { Point } from './shape';

export interface Photo { url: string; x: number; y: number; width: number; height: number }

/** What a house may be wide, m: wider or narrower is a slip of the hand. */
const WIDTHS = [1, 200] as const;

class Traced {
  photo = $state.raw<Photo | null>(null);
  /** What could not be done with it, and how it can. */
  wrong = $state('');
  #key = '';
  #blob: Blob | null = null;

  /** That of a storey of a job, if one was laid there. */
  open(key: string): void {
    if (key === this.#key) return;
    this.#key = key;
    this.wrong = '';
    this.#show(null);
    void (async () => {
      const kept = await (await shelf()).get('trace', key);
      if (kept && this.#key === key) await this.#place(kept.blob, kept.metres, kept.x, kept.y);
    })();
  }

  /** Lays one; says what is wrong, or nothing. */
  async lay(file: Blob, si: boolean): Promise<string> {
    const metres = si ? 10 : 9.144;
    try {
      const blob = await smaller(file, 2600);
      await this.#place(blob, metres, 0, metres * 0.8);
    } catch {
      return 'This file is not a picture that this browser can open. A photo or a scan as JPEG or PNG can be laid under the drawing.';
    }
    await this.#keep();
    return '';
  }

  slide(x: number, y: number): void {
    if (this.photo) this.photo = { ...this.photo, x, y };
  }

  /** So wide, about its upper left corner. */
  widen(text: string, si: boolean): string {
    const m = readLength(text, si ? 'm' : 'ft');
    const p = this.photo;
    if (!p) return '';
    if (m === null || m < WIDTHS[0] || m > WIDTHS[1]) return `The width of the photo does not read: "${text}". Write it like ${si ? '10 m' : '30 ft'}; usable is 1 to 200 m (3 to 656 ft).`;
    this.photo = { ...p, width: m, height: (m * p.height) / p.width };
    this.settle();
    return '';
  }

  /** Two points of it are so far apart: the first stays where it is. */
  scale(a: Point, b: Point, text: string, si: boolean): string {
    const m = readLength(text, si ? 'm' : 'ft');
    const p = this.photo;
    const now = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (!p) return '';
    const by = m === null || now < 1e-6 ? 0 : m / now;
    if (by * p.width < WIDTHS[0] || by * p.width > WIDTHS[1]) return `This length does not do: "${text}". Write it like ${si ? '4 m' : '12 ft 6 in'}, between two points well apart.`;
    this.photo = { url: p.url, x: a[0] + (p.x - a[0]) * by, y: a[1] + (p.y - a[1]) * by, width: p.width * by, height: p.height * by };
    this.settle();
    return '';
  }

  /** What was moved is kept. */
  settle(): void {
    void this.#keep();
  }

  lift(): void {
    this.#show(null);
    const key = this.#key;
    void shelf().then((db) => db.delete('trace', key));
  }

  async #place(blob: Blob, metres: number, x: number, y: number): Promise<void> {
    const picture = await createImageBitmap(blob);
    this.#show({ url: URL.createObjectURL(blob), x, y, width: metres, height: (metres * picture.height) / picture.width });
    this.#blob = blob;
    picture.close();
  }

  async #keep(): Promise<void> {
    const [p, blob, key] = [this.photo, this.#blob, this.#key];
    if (p && blob) await (await shelf()).put('trace', { key, blob, x: p.x, y: p.y, metres: p.width });
  }

  #show(photo: Photo | null): void {
    if (this.photo) URL.revokeObjectURL(this.photo.url);
    this.photo = photo;
    this.#blob = null;
  }
}

export const traced = new Traced();
