// Marks along an axis, at the round numbers of the person's units.

/** Temperatures to mark, from first to last, C. */
export function ticks(first: number, last: number, si: boolean, most: number): { c: number; text: string }[] {
  const from = si ? first : first * 1.8 + 32;
  const to = si ? last : last * 1.8 + 32;
  const step = [5, 10, 20, 25, 50].find((s) => (to - from) / s <= most) ?? 50;
  const out: { c: number; text: string }[] = [];
  for (let v = Math.ceil(from / step) * step; v <= to; v += step) out.push({ c: si ? v : (v - 32) / 1.8, text: String(v === 0 ? 0 : v) });
  const last1 = out[out.length - 1];
  if (last1) last1.text = `${last1.text} ${si ? 'C' : 'F'}`;
  return out;
}

/** Heat flows to mark up to the most, W. */
export function readHeat(most: number, si: boolean): number[] {
  const unit = si ? 1 : 0.29307107017;
  const top = most / unit;
  const step = [500, 1000, 2000, 2500, 5000, 10000, 20000, 50000].find((s) => top / s <= 4.5) ?? 100000;
  const out: number[] = [];
  for (let v = 0; v <= top; v += step) out.push(v * unit);
  return out;
}

/** Round numbers from first to last, `most` of them at most. */
export function steps(first: number, last: number, most: number): number[] {
  const size = Math.pow(10, Math.floor(Math.log10(Math.max(last - first, 1e-9))) - 1);
  const step = [1, 2, 5, 10, 20, 50, 100].map((s) => s * size).find((s) => (last - first) / s <= most) ?? last - first;
  const out: number[] = [];
  for (let k = Math.ceil(first / step); k * step <= last; k += 1) out.push(k * step);
  return out;
}
