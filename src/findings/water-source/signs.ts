import type { WaterSource } from '../../trial/index.js';

/** What a folder may hold that speaks of the source. */
export type Look = 'heights' | 'depths' | 'humid' | 'rain' | 'surface' | 'salts';

export type SignCode =
  | 'wettest-at-foot'
  | 'wettest-at-head'
  | 'wettest-part-way'
  | 'alike-at-all-heights'
  | 'wetter-at-surface'
  | 'wetter-inside'
  | 'mostly-hygroscopic'
  | 'mostly-liquid'
  | 'follows-rain'
  | 'apart-from-rain'
  | 'condenses'
  | 'above-dew-point'
  | 'salt-band'
  | 'salts-raised'
  | 'salts-low';

interface Bearing {
  readonly for: readonly WaterSource[];
  readonly against: readonly WaterSource[];
}

/** What each sign speaks for and against. Common practice in surveying damp walls, no source; no sign settles anything alone. */
export const bearings: Readonly<Record<SignCode, Bearing>> = {
  'wettest-at-foot': { for: ['rising-damp'], against: ['leak'] },
  'wettest-at-head': { for: ['penetrating-rain', 'leak'], against: ['rising-damp'] },
  'wettest-part-way': { for: ['penetrating-rain', 'leak'], against: [] },
  'alike-at-all-heights': { for: ['penetrating-rain', 'condensation'], against: ['rising-damp', 'leak'] },
  'wetter-at-surface': { for: ['condensation', 'hygroscopic'], against: ['rising-damp'] },
  'wetter-inside': { for: ['rising-damp', 'penetrating-rain'], against: ['condensation'] },
  'mostly-hygroscopic': { for: ['hygroscopic'], against: ['rising-damp', 'penetrating-rain', 'condensation', 'leak'] },
  'mostly-liquid': { for: ['rising-damp', 'penetrating-rain', 'condensation', 'leak'], against: ['hygroscopic'] },
  'follows-rain': { for: ['penetrating-rain', 'leak'], against: [] },
  'apart-from-rain': { for: [], against: ['penetrating-rain'] },
  condenses: { for: ['condensation'], against: [] },
  'above-dew-point': { for: [], against: ['condensation'] },
  'salt-band': { for: ['rising-damp', 'hygroscopic'], against: [] },
  'salts-raised': { for: ['hygroscopic'], against: [] },
  'salts-low': { for: [], against: ['hygroscopic'] },
};

/** What would tell each source from the others, of what a folder may hold. */
export const looksFor: Readonly<Record<WaterSource, readonly Look[]>> = {
  'rising-damp': ['heights', 'depths', 'humid'],
  'penetrating-rain': ['rain', 'heights'],
  condensation: ['surface', 'depths'],
  hygroscopic: ['humid', 'salts'],
  leak: ['heights', 'rain'],
};

/** Shares of the time below the dew point from which a wall counts as condensing, and below which as staying above it (our convention). */
export const condensingFrom = 0.1;
export const aboveDewPointBelow = 0.01;

/** Shares of the moisture that humid air alone would give, from which it is most of it, and up to which it is little (our convention). */
export const mostlyHygroscopicFrom = 2 / 3;
export const mostlyLiquidUpTo = 1 / 3;

/** A p-value of the rank correlation with rain below which moisture follows rain, and an upper limit below which it does not (our convention). */
export const rainAlarm = 0.03;
export const apartFromRainBelow = 0.3;

/** Share of the walls with salts that are not low, from which salts are raised (our convention). */
export const saltsRaisedFrom = 0.5;
