/**
 * What the simulated walls are made of and how they stand. None of it is a measurement: values of the order told of brick walls (common
 * practice, no source, unless said otherwise), so that levels, seasons and times come out as in the trade.
 */
export const assumed = {
  thickness_mm: 330,
  density_kg_m3: 1700,
  /** mm/min^0.5: within what is told of brick and lime mortar, 0.7 to 2 (from memory). */
  sorptivity: 0.9,
  /** Standard deviations of logarithms: of the sorptivity, and of what the air takes from a wall. */
  spreadOfSorptivity: 0.12,
  spreadOfEvaporation: 0.15,
  /** Water contents, volume by volume. */
  wet: 0.2,
  critical: 0.08,
  atRest: 0.015,
  /** Each percent of salt by mass lets a wall rest so much wetter, and takes this share of its evaporation, at most a quarter of it. */
  saltsAtRest_per_pct: 0.02,
  saltsOnEvaporation_per_pct: 0.25,
  /** Standard deviation, over height, by which joints and mixed bricks blur the front. */
  blurOfFront_mm: 200,
  /** Of a station against its wall, in % by mass, always the same. */
  stationSpread_pp: 0.5,
  /** Of one core against its station, the spot it was drilled at. */
  spotSpread_pp: 0.5,
  /** Logarithm of the evaporation of one wall from week to week, beside the season. */
  wanderSpread: 0.15,
} as const;

/** Water of a content in volume, in percent of the dry mass. */
export function percentByMass(content: number): number {
  const water_kg_m3 = 998.2;
  return (100 * content * water_kg_m3) / assumed.density_kg_m3;
}
