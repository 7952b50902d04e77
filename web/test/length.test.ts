import { describe, expect, it } from 'vitest';
import { readLength, readPoint, sayLength, writeLength, writePoint } from '../src/numbers/length';

describe('lengths as people write them', () => {
  // Exact by definition: an inch is 25.4 mm.
  it.each([
    ['12 ft 6 in', 3.81], ["12'6\"", 3.81], ['12 ft', 3.6576], ['14 1/2 in', 0.3683], ['1/4 in', 0.00635],
    ['3.4 m', 3.4], ['80 cm', 0.8], ['-6 ft', -1.8288], ['2 yd', 1.8288], ['12 ft 6', 3.81],
  ])('%s', (text, m) => {
    expect(readLength(text)).toBeCloseTo(m, 9);
  });
  it.each(['', 'ft', '12', '12 miles', '3 ft x', '1/0x'])('refuses %s', (text) => {
    expect(readLength(text)).toBeNull();
  });
  it('takes a bare number in the unit of the person', () => {
    expect(readLength('12', 'ft')).toBeCloseTo(3.6576, 9);
    expect(readLength('3.5', 'm')).toBe(3.5);
  });
  it('writes what it reads, to a quarter inch or a millimetre', () => {
    for (let q = 0; q < 900; q += 7) {
      const m = q * 0.00635;
      expect(readLength(writeLength(m, false)) ?? NaN).toBeCloseTo(m, 9);
    }
    for (let mm = 0; mm < 9000; mm += 37) expect(readLength(writeLength(mm / 1000, true)) ?? NaN).toBeCloseTo(mm / 1000, 9);
  });
  it('says them as findings do', () => {
    expect([sayLength(2.1336, true), sayLength(0.0508, true), sayLength(2.1336, false)]).toEqual(['2.13 m', '50.8 mm', '7 ft']);
  });
  it('writes places', () => {
    expect(writePoint([5.4864, 0], false)).toBe('18 ft, 0 ft');
    expect(readPoint('18 ft, 0 ft')).toEqual([readLength('18 ft'), 0]);
    expect(readPoint('18 ft')).toBeNull();
  });
});
