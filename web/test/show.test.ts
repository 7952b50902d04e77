import { describe, expect, it } from 'vitest';
import { people, rounded } from '../src/numbers/show';
import { masses } from '../src/survey/day';

describe('digits a number deserves', () => {
  it.each([
    [549.6, 4, 1, '549.6'], [35_286, 4, 0, '35,290'], [9223, 3, 0, '9,220'], [0.456, 2, 3, '0.46'], [16.19, 3, 1, '16.2'],
    [999.96, 4, 1, '1,000.0'], [0, 3, 1, '0'], [-20.04, 3, 1, '-20.0'], [5, 3, 0, '5'], [NaN, 3, 0, 'cannot tell'],
  ])('%d with %d', (v, significant, most, text) => {
    expect(rounded(v, significant, most)).toBe(text);
  });
});

describe('units of the person', () => {
  // Exact by definition: 1 Btu (international) is 1055.05585262 J; 0 F is 459.67 R.
  const us = people(false);
  const si = people(true);
  it('are Btu/h, F, psi, micron, or W, C, kPa, Pa', () => {
    expect(us.heatWith(2703.02)).toBe('9,220\u00a0Btu/h');
    expect(si.heatWith(2703.02)).toBe('2,700\u00a0W');
    // Tens, as the command rounds: of 3 581 W 12,219 Btu/h; a half goes away from nothing.
    expect(us.heatWith(3581)).toBe('12,220\u00a0Btu/h');
    expect(si.heatWith(35_294)).toBe('35,290\u00a0W');
    expect([si.heat(-15), si.heat(-4), si.heat(0), si.heat(NaN)]).toEqual(['-20', '0', '0', 'cannot tell']);
    expect(us.temperature(-20)).toBe('-4\u00a0F');
    expect(si.temperature(-20)).toBe('-20.0\u00a0C');
    expect(si.temperature(-0.04)).toBe('0.0\u00a0C');
    expect(us.temperature(-17.7777777778)).toBe('0\u00a0F');
    expect(us.pressure(549.6 * 6894.757293)).toBe('549.6\u00a0psi');
    expect(us.pressure(66.661184, true)).toBe('500\u00a0micron');
    expect(us.heatMark(8792.13)).toBe('30k');
    // As the command: `units` has the same values in its own tests.
    expect(us.temperature(-17.9)).toBe('0\u00a0F');
    expect(us.heatOverTimeWith(1234.56)).toBe('4.2\u00a0MMBtu');
    expect(si.heatOverTimeWith(1234.56)).toBe('1,235\u00a0kWh');
    expect([us.cop(2.027), us.share(0.31), us.share(0.062)]).toEqual(['2.03', '31\u00a0%', '6.2\u00a0%']);
    expect(us.money(1718.4)).toBe('$1,718');
  });
});

describe('a mass of refrigerant', () => {
  // 2.2 kg are 77.60 oz; a pound is 0.45359237 kg exactly.
  it.each([
    [2.2, '4\u00a0lb 13.6\u00a0oz', '2,200\u00a0g'], [0.38, '13.4\u00a0oz', '380\u00a0g'], [0, '0.0\u00a0oz', '0\u00a0g'],
    [-0.244, '-8.6\u00a0oz', '-244\u00a0g'], [0.45359237, '1\u00a0lb', '454\u00a0g'],
  ])('%d kg', (kg, us, si) => {
    expect([masses(kg, false), masses(kg, true)]).toEqual([us, si]);
  });
});
