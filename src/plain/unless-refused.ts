/**
 * What a computation comes to, or nothing where it refuses for a reason that the caller can live with. Any other error goes on its way: a
 * fault of the program must not pass for data that say too little.
 *
 * @param isRefusal which errors are refusals
 * @example unlessRefused((error) => error instanceof RangeError, () => 'a'.repeat(-1)) // undefined
 */
export function unlessRefused<Refusal, Found>(
  isRefusal: (error: unknown) => error is Refusal,
  compute: () => Found,
): Found | undefined {
  return orInstead(isRefusal, compute, () => undefined);
}

/**
 * As `unlessRefused`, with something in the place of what was refused, which the refusal may word.
 *
 * @example orInstead((error) => error instanceof RangeError, () => 'a'.repeat(-1), () => 'none') // 'none'
 */
export function orInstead<Refusal, Found, Instead>(
  isRefusal: (error: unknown) => error is Refusal,
  compute: () => Found,
  instead: (refusal: Refusal) => Instead,
): Found | Instead {
  try {
    return compute();
  } catch (error) {
    if (!isRefusal(error)) throw error;
    return instead(error);
  }
}
