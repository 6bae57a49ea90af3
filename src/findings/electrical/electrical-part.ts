import type { Primary, Side } from '../../analysis/index.js';
import { present } from '../../plain/present.js';
import type { Trial } from '../../trial/index.js';
import { type ChargeLedger, chargeLedger } from './charge-ledger.js';
import { type CurrentTrend, currentTrend } from './current-trend.js';
import { type CurrentsOfCircuit, currentsByDay } from './currents-by-day.js';
import { type ElectricalWall, electricalOfTrial } from './electrical-of-trial.js';
import { type ElectricalArm, meansByArm } from './means-of-arm.js';

/** What the electrodes did, wall by wall, and the charge beside the water. */
export interface ElectricalPart {
  readonly walls: readonly ElectricalWall[];
  readonly arms: readonly ElectricalArm[];
  /** Of the treated walls; absent where too few readings have a current. */
  readonly trend?: CurrentTrend;
  /** For the chart. */
  readonly currents: readonly CurrentsOfCircuit[];
  readonly ledger?: ChargeLedger;
}

/** Absent without `electrical.csv`. */
export function electricalPart(
  trial: Trial,
  sides: ReadonlyMap<string, Side>,
  primary: Primary,
): ElectricalPart | undefined {
  const walls = electricalOfTrial(trial, sides);
  if (walls === undefined) return undefined;
  const difference = primary.kind === 'estimated' ? primary.estimate.estimate : undefined;
  const ledger = chargeLedger(trial, walls, difference);
  const trend = currentTrend(trial, sides);
  return {
    ...{ walls, arms: meansByArm(walls), currents: currentsByDay(trial) },
    ...present({ trend, ledger }),
  };
}
