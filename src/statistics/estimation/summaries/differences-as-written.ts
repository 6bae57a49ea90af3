/**
 * Each value minus an origin near it, as a subtraction of the decimals gives it: 100.3 - 100.1 is 0.2, where doubles
 * alone give 0.20000000000000284.
 *
 * The subtraction of two doubles so near each other is exact; what is wrong is what rounding made of the decimals
 * before it. The difference has no more decimals than the two numbers, so rounding it to as many restores it. Numbers
 * with more than 15 significant digits were computed, not written, and are left as they are.
 */
export function differencesAsWritten(values: readonly number[], origin: number): number[] {
  const originDecimals = decimalsOf(origin);
  return values.map((value) => {
    const decimals = Math.max(originDecimals, decimalsOf(value));
    const difference = value - origin;
    return decimals <= mostDecimals && Math.abs(difference) < 1e20 ? Number(difference.toFixed(decimals)) : difference;
  });
}

/** What `toFixed` can do. */
const mostDecimals = 100;

/** Digits after the decimal point of the shortest decimal that is this double; infinite for a computed number. */
function decimalsOf(value: number): number {
  const [mantissa = '', exponent = '0'] = String(Math.abs(value)).split('e');
  const [whole = '', fraction = ''] = mantissa.split('.');
  const digits = `${whole}${fraction}`.replace(/^0+/, '').length;
  return digits > 15 ? Number.POSITIVE_INFINITY : Math.max(0, fraction.length - Number(exponent));
}
