// Lengths as people write them, read and written for the drawing board. The server reads every
// value again; this only draws what was typed.

const METRES: Record<string, number> = {
  ft: 0.3048, "'": 0.3048, in: 0.0254, '"': 0.0254, yd: 0.9144,
  m: 1, cm: 0.01, mm: 0.001,
};

/** Reads "12 ft 6 in", "12'6", "3.4 m", "-1/2 in". Without a unit the person's own is meant. */
export function readLength(text: string, bare?: 'ft' | 'm'): number | null {
  const t = text.trim().toLowerCase().replace(/[′’]/g, "'").replace(/[″”]/g, '"');
  if (t === '') return null;
  const sign = t.startsWith('-') ? -1 : 1;
  let rest = t.replace(/^-/, '').trim();
  let sum = 0;
  let parts = 0;
  let last = '';
  const part = /^(?:(\d+)\s+(\d+)\/(\d+)|(\d+)\/(\d+)|(\d+(?:\.\d+)?|\.\d+))\s*(ft|in|yd|mm|cm|m|'|")?\s*/;
  while (rest !== '') {
    const m = part.exec(rest);
    if (!m || m[0] === '') return null;
    const value = m[1] !== undefined
      ? Number(m[1]) + Number(m[2]) / Number(m[3])
      : m[4] !== undefined ? Number(m[4]) / Number(m[5]) : Number(m[6]);
    let unit = m[7];
    if (unit === undefined) {
      if (last === 'ft' || last === "'") unit = 'in';
      else if (parts === 0 && bare) unit = bare;
      else return null;
    }
    const size = METRES[unit];
    if (size === undefined || !Number.isFinite(value)) return null;
    sum += value * size;
    last = unit;
    parts += 1;
    rest = rest.slice(m[0].length);
  }
  return sign * sum;
}

/** How a person of this system writes the length: to a quarter inch, or to the millimetre. */
export function writeLength(m: number, si: boolean): string {
  if (si) return `${trim((Math.round(m * 1000) / 1000).toFixed(3))} m`;
  const quarters = Math.round(Math.abs(m) / 0.0254 * 4);
  const sign = m < 0 && quarters > 0 ? '-' : '';
  const feet = Math.floor(quarters / 48);
  const rest = quarters - feet * 48;
  const whole = Math.floor(rest / 4);
  const q = rest % 4;
  const part = q === 0 ? '' : q === 2 ? '1/2' : `${q}/4`;
  const inches = [whole > 0 || (feet === 0 && q === 0) ? String(whole) : '', part].filter((s) => s !== '').join(' ');
  if (feet === 0) return `${sign}${inches} in`;
  return inches === '' ? `${sign}${feet} ft` : `${sign}${feet} ft ${inches} in`;
}

/** How a length is said where nobody draws with it: as in the findings, to a centimetre, a fall to a tenth of a millimetre. */
export function sayLength(m: number, si: boolean): string {
  if (!si) return writeLength(m, si);
  return Math.abs(m) < 0.0995 ? `${trim((m * 1000).toFixed(1))} mm` : `${m.toFixed(2)} m`;
}

function trim(s: string): string {
  return s.includes('.') ? s.replace(/0+$/, '').replace(/\.$/, '') : s;
}

/** Reads a place on the plan: "18 ft, 0 ft". */
export function readPoint(text: string): [number, number] | null {
  const [a, b, more] = text.split(',');
  if (a === undefined || b === undefined || more !== undefined) return null;
  const e = readLength(a);
  const n = readLength(b);
  return e === null || n === null ? null : [e, n];
}

/** Writes a place on the plan. */
export function writePoint(p: readonly [number, number], si: boolean): string {
  const one = (v: number) => {
    const s = writeLength(v, si);
    return s === '0 in' ? '0 ft' : s;
  };
  return `${one(p[0])}, ${one(p[1])}`;
}
