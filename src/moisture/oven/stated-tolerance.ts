/** Percent by mass. A rule that lets more than this go is none, and the number means something else. Our own rule, no source. */
const loosest_pct = 5;

/**
 * What a stop rule in somebody’s own words lets a sample still change, in percent of its mass. Nothing where the words hold no such
 * number, or several, or speak of the mass of water, of which a change of the whole mass says nothing.
 *
 * @example statedTolerance('change under 0.1 % of the mass in 24 h') // 0.1
 */
export function statedTolerance(stopRule: string): number | undefined {
  const numbers = [...stopRule.matchAll(/(\d+(?:[.,]\d+)?)\s*(?:(?:m|ma|wt)\.?-?\s?)?(?:%|per ?cent\b)/gi)];
  const [only] = numbers;
  if (only === undefined || numbers.length > 1 || /water|humid|\brh\b/i.test(stopRule)) return undefined;
  const tolerance_pct = Number(only[1]?.replace(',', '.'));
  return tolerance_pct > 0 && tolerance_pct <= loosest_pct ? tolerance_pct : undefined;
}
