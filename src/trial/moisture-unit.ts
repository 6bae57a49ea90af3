/**
 * Units of moisture content on the dry basis that cores can be reported in, as multiples of percent by mass.
 * Percent by mass here is mass of water over mass of dry material (EN ISO 12570, EN 16682; cited from memory).
 */
const multiplesOfPercentByMass: Readonly<Record<string, number>> = {
  '% by mass': 1,
  '% by mass (dry basis)': 1,
  'percent by mass': 1,
  '% by weight': 1,
  '% m/m': 1,
  '%': 1,
  'kg/kg': 0.01,
  'g/g': 0.01,
  'g/kg': 10,
};

/** What `unitsPerPercentByMass` knows, for messages. */
export const dryBasisUnits: readonly string[] = Object.keys(multiplesOfPercentByMass);

/**
 * How many of `unit` make one percent by mass on the dry basis; undefined for a unit that cores cannot be reported in.
 *
 * @example unitsPerPercentByMass('kg/kg') // 0.01
 */
export function unitsPerPercentByMass(unit: string): number | undefined {
  const plain = unit.trim().toLowerCase().replaceAll(/\s+/g, ' ');
  return Object.hasOwn(multiplesOfPercentByMass, plain) ? multiplesOfPercentByMass[plain] : undefined;
}
