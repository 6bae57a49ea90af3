import type { Primary, Side } from '../../analysis/index.js';
import { type ChargeLedger, chargeLedger } from '../../findings/electrical/charge-ledger.js';
import { type ElectricalWall, electricalOfTrial } from '../../findings/electrical/electrical-of-trial.js';
import type { Trial } from '../../trial/index.js';

/** What the electrodes did, wall by wall, and the charge beside the water. */
export interface ElectricalPart {
  readonly walls: readonly ElectricalWall[];
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
  return { walls, ...(ledger === undefined ? {} : { ledger }) };
}
