import type { Side } from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import type { Trial } from '../../trial/index.js';
import { type AirBeside, type AirOfArms, airBeside, airOfArms, airOfWalls } from '../air/air-of-arms.js';
import { type ImpliedEvaporation, impliedEvaporation } from './implied-evaporation.js';
import { type TreatmentSpread, treatmentSpread } from './starts-of-walls.js';
import { type WaitOfTrial, waitOfTrial } from './wait-of-trial.js';

/** What physics says of a trial whether or not curves can be drawn. */
export interface DryingFacts {
  readonly implied: ImpliedEvaporation;
  /** Absent without windows. */
  readonly wait?: WaitOfTrial;
  /** Absent where no treated wall’s day is on record. */
  readonly spread?: TreatmentSpread;
  /** Absent without a record of the air in both windows. */
  readonly airOfArms?: AirOfArms;
  readonly airBeside: AirBeside;
}

/** Of the walls that are compared; fast, for nothing is resampled. */
export function dryingFacts(
  trial: Trial,
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): DryingFacts {
  const walls = [...sides].map(([wall, side]) => ({ wall, side }));
  const wait = waitOfTrial(trial, walls);
  const spread = treatmentSpread(trial, sides);
  const air = airOfWalls(trial, sides);
  const arms = airOfArms(trial, sides, air);
  return {
    implied: impliedEvaporation(trial, readings, sides),
    ...present({ wait, spread, airOfArms: arms }),
    airBeside: airBeside(trial, sides, air),
  };
}
