// Moisture over time: what is thrown where there can be no answer.

export type { DryingCurve } from './drying-curve.js';
export { DryingError, type DryingFault, isDryingError } from './drying-error.js';

// Rates: specimens, the drying index, shapes of curves and the choice among them.

export { commonPeriod_d, dryingIndex } from './rates/drying-index.js';
export { type DryingModel, type DryingModelKind, dryingModels } from './rates/drying-models.js';
export { type DryingOfCurve, dayOfMoisture, dryingOfCurve, type WeightedFit } from './rates/drying-of-curve.js';
export {
  type DryingFit,
  dryingInterval,
  type Equilibrium,
  fitDryingModel,
  type NoInterval,
} from './rates/fit-drying-model.js';
export { meanCurve, type StationReading } from './rates/mean-curve.js';
export { type SpecimenDrying, type SpecimenDryingRates, specimenDryingRates } from './rates/specimen-drying-rates.js';

// Time to dry: between which visits, for curves of arms and for comparisons of walls.

export {
  daysUntilDry,
  followedUntilDry,
  intervalUntilDry,
  type TimeToDry,
  timeToDry,
} from './time-to-dry/time-to-dry.js';

// What can have happened: the evaporation that a fall implies, what the air can take, and how long to wait.

export {
  assumedWall,
  evaporationInSun_mm_d,
  fallingStageFactor,
  moistureTransfer_kg_m2_s_pa,
  mostEvaporationUnrecorded_mm_d,
  winterPressure_pa,
} from './ceiling/assumed-values.js';
export {
  type DryingWall,
  type EvaporationFromAir,
  evaporationCeiling,
  evaporationFromAir,
  evaporationFromPressure,
} from './ceiling/evaporation-ceiling.js';
export { type EvaporationImplied, evaporationImplied, type FallOfWall } from './ceiling/evaporation-implied.js';
export { naturalDryingPrompt_d } from './ceiling/natural-drying-prompt.js';
export { type MarginToLose, type WaitForMargin, waitForMargin } from './ceiling/wait-for-margin.js';

// Wetting: arrivals at sensors, the front, sorptivity, sharp-front theory, rest before the treatment.

export {
  type EvaporatingFront,
  evaporatingFront,
  evaporationOfFront,
  type FrontAtRest,
} from './wetting/evaporating-front.js';
export {
  type FrontArrival,
  type FrontSpeed,
  frontSpeed,
  type MoistureBehindFront,
  type Sorptivity,
  sorptivityOf,
} from './wetting/front-height.js';
export { type DayOfArrival, type RisingFront, risingFront } from './wetting/rising-front.js';
export { type RootTimeTest, rootTimeTest } from './wetting/root-time-test.js';
export { type NotArrived, type SensorArrival, type SensorSeries, sensorArrivals } from './wetting/sensor-arrival.js';
export { type RisingWall, type SharpFront, sharpFront } from './wetting/sharp-front.js';
export { type SteadyState, steadyBefore } from './wetting/steady-before.js';
