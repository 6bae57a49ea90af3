const minus = '\u2212';
const thinSpace = '\u202f';
const superscripts: Readonly<Record<string, string>> = {
  '-': '⁻',
  '0': '⁰',
  '1': '¹',
  '2': '²',
  '3': '³',
  '4': '⁴',
  '5': '⁵',
  '6': '⁶',
  '7': '⁷',
  '8': '⁸',
  '9': '⁹',
};

/**
 * A number for readers: fixed decimals, a real minus sign, narrow spaces between thousands from 10 000 on,
 * and powers of ten where six decimals would show nothing.
 *
 * @example formatNumber(-2.6, 2) // '−2.60'
 */
export function formatNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`formatNumber needs a finite number, got ${value}`);
  const magnitude = Math.abs(value);
  if (magnitude >= 1e15 || (decimals > 6 && magnitude !== 0)) return powerOfTen(value);
  const fixed = magnitude.toFixed(Math.min(decimals, 6));
  const [whole = '', fraction] = fixed.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, thinSpace) : whole;
  const sign = value < 0 && Number(fixed) !== 0 ? minus : '';
  return `${sign}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

/** With a plus sign in front of what is above zero, for differences. */
export function formatSigned(value: number, decimals: number): string {
  const text = formatNumber(value, decimals);
  return value > 0 && !/^[0.]+$/.test(text) ? `+${text}` : text;
}

/**
 * A number as somebody stated it, with the decimals that they gave.
 *
 * @example formatStated(-2) // '−2'
 */
export function formatStated(value: number): string {
  const written = String(Math.abs(value));
  if (written.includes('e')) return formatNumber(value, 7);
  return formatNumber(value, Math.min(6, written.split('.')[1]?.length ?? 0));
}

/**
 * Decimals that show two significant digits of a width (of an interval's half, of a range): more would be noise.
 *
 * @example decimalsFor(0.8) // 2
 */
export function decimalsFor(width: number): number {
  if (!(width > 0) || !Number.isFinite(width)) return 2;
  return Math.max(0, 1 - Math.floor(Math.log10(width)));
}

/** @example formatPValue(0.0004) // 'p < 0.001' */
export function formatPValue(pValue: number): string {
  if (pValue < 0.001) return 'p < 0.001';
  return `p = ${pValue.toFixed(pValue < 0.1 ? 3 : 2)}`;
}

function powerOfTen(value: number): string {
  const [mantissa = '', exponent = ''] = Math.abs(value).toExponential(2).split('e');
  const power = [...exponent.replace('+', '')].map((digit) => superscripts[digit] ?? '').join('');
  return `${value < 0 ? minus : ''}${mantissa} × 10${power}`;
}
