// Numbers as they are said: SI in, the person's units out, with the digits they deserve.

export const people = (si: boolean) => new Numbers(si);

function grouped(n: number, digits: number): string {
  return n.toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits });
}

/** Rounded to so many significant digits, never with more than `most` decimals. */
export function rounded(n: number, significant: number, most = 3): string {
  if (!Number.isFinite(n)) return 'cannot tell';
  if (n === 0) return '0';
  const size = Math.floor(Math.log10(Math.abs(n)));
  const decimals = Math.max(0, Math.min(most, significant - 1 - size));
  // Above the decimal point by whole steps, below it by decimals.
  if (size < significant) return grouped(n, decimals);
  const step = Math.pow(10, size - significant + 1);
  return grouped(Math.round(n / step) * step, 0);
}

export class Numbers {
  constructor(readonly si: boolean) {}

  heatUnit(): string {
    return this.si ? 'W' : 'Btu/h';
  }

  /** Heat flow without its unit, to tens of W or of Btu/h, as the command and the papers round it. */
  heat(w: number): string {
    const v = this.si ? w : w / 0.29307107017;
    if (!Number.isFinite(v)) return 'cannot tell';
    const tens = Math.round(Math.abs(v) / 10) * 10;
    return grouped(v < 0 && tens > 0 ? -tens : tens, 0);
  }

  heatWith(w: number): string {
    return `${this.heat(w)}\u00a0${this.heatUnit()}`;
  }

  /** Short mark on an axis. */
  heatMark(w: number): string {
    const v = this.si ? w : w / 0.29307107017;
    return Math.abs(v) >= 1000 ? `${rounded(v / 1000, 3, 1).replace(/\.0$/, '')}k` : rounded(v, 3, 0);
  }

  /** Heat loss per degree, without its unit: W/K, or Btu/(h F). */
  lossNumber(wPerK: number): string {
    return rounded(this.si ? wPerK : wPerK / 0.29307107017 / 1.8, 3, 2);
  }

  temperature(c: number): string {
    return `${this.degrees(c)}\u00a0${this.si ? 'C' : 'F'}`;
  }

  /** Whole F or tenths of C, the number alone, as the command and the papers round it. */
  degrees(c: number): string {
    if (!Number.isFinite(c)) return '-';
    return (this.si ? c.toFixed(1) : (c * 1.8 + 32).toFixed(0)).replace(/^-(?=[0.]+$)/, '');
  }

  heatOverTimeUnit(): string {
    return this.si ? 'kWh' : 'MMBtu';
  }

  /** Heat over a time without its unit: whole kWh, or tenths of a million Btu. */
  heatOverTime(kwh: number): string {
    return this.si ? grouped(kwh, 0) : grouped(kwh / 293.07107017, 1);
  }

  heatOverTimeWith(kwh: number): string {
    return `${this.heatOverTime(kwh)}\u00a0${this.heatOverTimeUnit()}`;
  }

  kwh(kwh: number): string {
    return grouped(kwh, 0);
  }

  mass(kg: number): string {
    return this.si ? `${rounded(kg, 3, 1)}\u00a0kg` : `${rounded(kg / 0.45359237, 3, 1)}\u00a0lb`;
  }

  money(v: number): string {
    return `$${grouped(Math.round(v), 0)}`;
  }

  cop(v: number): string {
    return v.toFixed(2);
  }

  share(v: number): string {
    // under a tenth its tenths count
    return `${(v * 100).toFixed(Math.abs(v) < 0.0995 ? 1 : 0)}\u00a0%`;
  }

  /** Pressure above the air, or of a vacuum. */
  pressure(pa: number, vacuum = false): string {
    if (vacuum) return this.si ? `${rounded(pa, 3, 1)}\u00a0Pa` : `${rounded(pa / 0.133322368, 3, 0)}\u00a0micron`;
    return this.si ? `${rounded(pa / 1000, 4, 1)}\u00a0kPa` : `${rounded(pa / 6894.757293, 4, 1)}\u00a0psi`;
  }

  count(n: number): string {
    return grouped(n, 0);
  }

  hours(h: number): string {
    return `${grouped(Math.round(h), 0)}\u00a0h`;
  }
}
