// Names for changes that sort by time. Made here so that sending one twice does no harm.

/** A version 7 identifier: 48 bits of time, 74 of chance. */
export function uuid7(now = Date.now(), chance: Uint8Array = crypto.getRandomValues(new Uint8Array(10))): string {
  const b = new Uint8Array(16);
  let t = now;
  for (let i = 5; i >= 0; i -= 1) {
    b[i] = t % 256;
    t = Math.floor(t / 256);
  }
  b.set(chance.subarray(0, 10), 6);
  b[6] = ((b[6] ?? 0) & 0x0f) | 0x70;
  b[8] = ((b[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(b, (v) => v.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
