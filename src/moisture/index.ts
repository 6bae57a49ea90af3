export type { CoreMasses } from './core-masses.js';
export { type GravimetricMoisture, gravimetricMoisture } from './gravimetric-moisture.js';
export type { MoistureReading } from './moisture-reading.js';
export { moistureReadings } from './moisture-readings.js';
export { type WeighingSource, type WeighingUncertainty, weighingUncertainty } from './weighing-uncertainty.js';

// What is thrown where a moisture quantity would mean nothing, and how far a figure of the trade can be trusted.

export { isMoistureError, MoistureError, type MoistureFault } from './moisture-error.js';
export type { MarkedLimit, Source, SourceMark } from './source-mark.js';

// Bases of moisture content: dry, wet, by volume, degree of saturation.

export {
  saturationOfPorosity,
  toDegreeOfSaturation,
  toDryBasis,
  toVolumeBasis,
  toWetBasis,
} from './basis/convert.js';
export { type MoistureChange, moistureChange } from './basis/moisture-change.js';
export type {
  Densities,
  DryBasisMoisture,
  MoistureContent,
  Saturation,
  SaturationMoisture,
  VolumeMoisture,
  WetBasisMoisture,
} from './basis/moisture-content.js';

// The oven: constant mass, temperature, crystal water.

export {
  type ConstantMass,
  constantMass,
  type DriedSample,
  type OvenWeighing,
  type StillInIt,
} from './oven/constant-mass.js';
export { type CrystalWaterError, crystalWaterError } from './oven/crystal-water-error.js';
export { type DryingRule, dryingRules } from './oven/drying-rules.js';
export { type HydratedSalt, type HydratedSaltName, hydratedSalts } from './oven/hydrated-salts.js';
export { type DryingBatch, type JudgedBatch, type JudgedSample, judgeDrying } from './oven/judge-drying.js';
export { changeStillToCome_pct, type MassStillToLose, massStillToLose } from './oven/mass-still-to-lose.js';
export {
  type OvenBatch,
  type OvenFinding,
  type OvenSetting,
  ovenFindings,
  ovenSettings,
} from './oven/oven-temperature.js';
export { statedTolerance } from './oven/stated-tolerance.js';

// Uncertainty of a core's moisture, and of its change.

export { type CoreForItsWall, coreForItsWall } from './budget/core-for-its-wall.js';
export { type GravimetricBatch, gravimetricBatch } from './budget/gravimetric-batch.js';
export { type GravimetricBudget, gravimetricBudget } from './budget/gravimetric-budget.js';
export { gravimetricChange } from './budget/gravimetric-change.js';
export type { GravimetricErrors, GravimetricTerm, ShareLost, WaterLoss } from './budget/gravimetric-errors.js';
export { simulatedGravimetric } from './budget/simulated-gravimetric.js';

// Reused cores: moisture by visit, drift of the dry mass, serial correlation.

export { type HiddenDrift, hiddenDrift } from './reused/hidden-drift.js';
export type { DryMass, ReusedCore, ReusedCoreVisit } from './reused/reused-core.js';
export { reusedCoreMoisture } from './reused/reused-core-moisture.js';
export { type SerialCorrelation, serialCorrelation } from './reused/serial-correlation.js';

// Hygroscopic moisture and excess, patterns over height, salts, published thresholds.

export {
  deliquescenceHumidity,
  nearSalt_pp,
  type SaltsAtCondition,
  saltsNearCondition,
  sourceOfDeliquescence,
} from './hygroscopic/deliquescence.js';
export type { DeliquescentSalt } from './hygroscopic/deliquescence-curves.js';
export {
  type HeightPattern,
  type HeightPatternOptions,
  type HeightShape,
  heightPattern,
  type MoistureAtHeight,
  type PointInterval,
} from './hygroscopic/height-pattern.js';
export { heightPatternOfWalls, type WallProfile } from './hygroscopic/height-pattern-of-walls.js';
export { type HumidCondition, isSameCondition, temperatureTolerance_c } from './hygroscopic/humid-condition.js';
export {
  type ExcessMoisture,
  excessMoisture,
  excessOfSample,
  type HumidMasses,
  type HygroscopicMoisture,
  hygroscopicMoisture,
} from './hygroscopic/hygroscopic-moisture.js';
export {
  type CauseSign,
  type MoistureCause,
  type Possibility,
  patternPossibilities,
} from './hygroscopic/pattern-possibilities.js';
export {
  type SaltLoad,
  type SaltLoadClass,
  type SaltPurpose,
  type SaltScheme,
  saltLoad,
  saltSchemes,
} from './hygroscopic/salt-load.js';
export { type MoistureThreshold, moistureThresholds } from './hygroscopic/thresholds.js';
export { type SaltClass, type WorstIon, worstClass, worstIon } from './hygroscopic/worst-ion.js';

// Air: saturation, dew point, vapour, and what drives evaporation.

export {
  type AirAtTime,
  type EvaporationPotential,
  evaporationPotential,
  pressureDifference,
} from './air/evaporation-potential.js';
export { type Air, dewPoint, mixingRatio, vapourDensity, vapourPressure } from './air/humid-air.js';
export {
  type PressureFormula,
  type PressureOptions,
  type SaturatedOver,
  saturationPressure,
  saturationTemperature,
  sourceOfPressure,
} from './air/saturation-pressure.js';

// Calibration of meters against cores; drift against a check block.

export { type CalibrationByUncertainties, calibrateByUncertainties } from './calibration/calibrate-by-uncertainties.js';
export { type CalibrationOptions, calibrateMeter, type MeterCalibration } from './calibration/calibrate-meter.js';
export type { CalibrationLine, CalibrationOfLine, ReadingRises } from './calibration/calibration-of-line.js';
export {
  type CalibrationPair,
  type CalibrationPairs,
  calibrationPairs,
  type PairingOptions,
} from './calibration/calibration-pairs.js';
export { fewestPairs } from './calibration/check-calibration-pairs.js';
export { type RatioOfErrors, repeatsWithinDays } from './calibration/error-ratio-of-pairs.js';
export { type CheckOfInstrument, type InstrumentDrift, instrumentDrift } from './calibration/instrument-drift.js';
export { type MoistureByMeter, moistureByMeter } from './calibration/moisture-by-meter.js';
export { type MonotoneCalibration, monotoneCalibration } from './calibration/monotone-calibration.js';
export { pairsOnScale, readingOnScale } from './calibration/reading-scale.js';
export type { UnseenWalls } from './calibration/unseen-walls.js';

// Agreement of a meter with cores, by wall.

export { agreementOnWalls } from './agreement/agreement-on-walls.js';
export { type BetweenReaders, betweenReaders } from './agreement/between-readers.js';
export { concordanceOnWalls } from './agreement/concordance-on-walls.js';
export { type ChangeByBoth, fewestTracked, type TrackedChange, trackedChange } from './agreement/tracked-change.js';

// Profiles of a wall: damp front, water stored, maps.

export { type DampFront, dampFront, type FrontParameter } from './profile/damp-front.js';
export { type DampFrontByOrder, dampFrontByOrder } from './profile/damp-front-by-order.js';
export type { MoistureAtPoint } from './profile/moisture-at-point.js';
export { type StoredWater, storedWater, type UncertainMoisture, type WallBody } from './profile/stored-water.js';
export { type WallMapCell, wallMap, wallMapOfChange } from './profile/wall-map.js';

// Potentials: what a sign needs, offset and drift from reversals, changes of sign; electrical series.

export {
  type ElectricalErrors,
  type ElectricalReading,
  type ElectricalSeries,
  electricalSeries,
  type UncertainValue,
} from './potential/electrical-series.js';
export {
  conductivityOfMasonry_s_per_m,
  electroOsmoticPermeability_m2_per_vs,
  faraday_c_per_mol,
  waterByElectrolysis,
  waterMovedByCharge,
} from './potential/electro-osmosis.js';
export {
  fewestReversals,
  offsetOfReversals,
  type PairedReversal,
  type ReversalOffset,
} from './potential/offset-of-reversals.js';
export {
  checkedSetup,
  type Lead,
  type Polarity,
  type PotentialSetup,
  potentialOfPoint,
  type StatedSetup,
} from './potential/potential-setup.js';
export { type PotentialAtVisit, type Sign, type SignChange, signChange } from './potential/sign-change.js';
export {
  type PotentialsOfWall,
  type SignChangesOfWalls,
  type SignTally,
  signChangesOfWalls,
} from './potential/sign-changes-of-walls.js';
