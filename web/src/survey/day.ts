// What the forms of the day share: bare numbers get their unit, what was typed last time, and the
// verdict while it is typed.

/** A number without a unit is taken in the one its field names. */
export const counted = (text: string, unit: string): string => (/^[-+]?[\d.,\s]+$/.test(text) ? `${text.trim()} ${unit}` : text.trim());

/** A mass in both units: an ounce read as a gram is a call-back. */
export function masses(kg: number, si: boolean): string {
  const grams = Math.abs(kg) < 0.0005 ? 0 : Math.round(kg * 1000);
  if (si) return `${grams.toLocaleString('en-US')}\u00a0g`;
  const tenths = Math.round((Math.abs(grams) / 1000 / 0.45359237) * 160);
  const [pounds, ounces] = [Math.floor(tenths / 160), (tenths % 160) / 10];
  const minus = grams < 0 && tenths > 0 ? '-' : '';
  if (pounds === 0) return `${minus}${ounces.toFixed(1)}\u00a0oz`;
  return `${minus}${pounds}\u00a0lb${ounces > 0 ? ` ${ounces.toFixed(1)}\u00a0oz` : ''}`;
}

export function recall(key: string, other: string): string {
  try {
    return localStorage.getItem(`northwall.day.${key}`) ?? other;
  } catch {
    return other;
  }
}

export function remember(key: string, value: string): void {
  try {
    localStorage.setItem(`northwall.day.${key}`, value);
  } catch {
    // Without storage the fields begin as usual next time.
  }
}

/** Asks for a verdict once the typing rests; gives what stops it, for an effect to clean up with. */
export function atRest<V>(ask: () => Promise<V>, got: (verdict: V) => void): () => void {
  let over = false;
  const t = setTimeout(() => void ask().then((v) => { if (!over) got(v); }), 350);
  return () => {
    over = true;
    clearTimeout(t);
  };
}
