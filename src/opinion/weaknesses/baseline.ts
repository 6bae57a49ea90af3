import { mean, standardDeviation } from '../../statistics/index.js';
import type { Weakness } from '../opinion.js';
import { numberInWords, quantityInWords } from '../words/quantity.js';
import { type Facts, wallsOn } from './facts.js';

/** Standardised differences of the before values that are worth a note and that are serious: our conventions. */
const noteworthy = 0.5;
const grave = 1;

interface BaselineDifference {
  readonly treated: number;
  readonly untreated: number;
  /** Treated less untreated over the pooled standard deviation; absent where a side has fewer than two walls or none vary. */
  readonly standardised?: number;
}

function baselineDifference(facts: Facts): BaselineDifference | undefined {
  const [treated, untreated] = [before(facts, 'treated'), before(facts, 'untreated')];
  if (treated.length === 0 || untreated.length === 0) return undefined;
  const means = { treated: mean(treated), untreated: mean(untreated) };
  if (treated.length < 2 || untreated.length < 2) return means;
  const squares = (values: readonly number[]) => (values.length - 1) * standardDeviation(values) ** 2;
  const pooled = Math.sqrt((squares(treated) + squares(untreated)) / (treated.length + untreated.length - 2));
  return pooled === 0 ? means : { ...means, standardised: (means.treated - means.untreated) / pooled };
}

function before(facts: Facts, side: 'treated' | 'untreated'): readonly number[] {
  return wallsOn(facts, side).flatMap((wall) => wall.before ?? []);
}

export function beforeValuesUnlike(facts: Facts): Weakness | undefined {
  const difference = baselineDifference(facts);
  if (difference?.standardised === undefined || Math.abs(difference.standardised) < noteworthy) return undefined;
  const { unit } = facts.trial.protocol.outcome;
  const isChosen = facts.trial.protocol.allocation.method === 'chosen';
  return {
    code: 'before-values-unlike',
    seriousness: isChosen || Math.abs(difference.standardised) >= grave ? 'serious' : 'minor',
    text: `Before the treatment the treated walls stood at ${quantityInWords(difference.treated, unit)} and the untreated at ${quantityInWords(difference.untreated, unit)}, ${numberInWords(Math.abs(difference.standardised))} standard deviations between walls apart.`,
    remedy:
      'Pair or block the walls by their before values and draw the treated ones by lot inside each; see the baseline-adjusted analysis.',
  };
}

export function wallsChosenWettest(facts: Facts): Weakness | undefined {
  if (facts.trial.protocol.selection !== 'wettest') return undefined;
  const isDrawn = facts.trial.protocol.allocation.method !== 'chosen' && wallsOn(facts, 'untreated').length > 0;
  return {
    code: 'walls-chosen-wettest',
    seriousness: isDrawn ? 'minor' : 'serious',
    text: `The walls were taken into the trial for being wet, and walls picked at their worst tend to read better next time whatever is done to them${isDrawn ? '; the untreated walls, drawn by lot from the same walls, share that' : ''}.`,
    remedy: 'Read the walls again after choosing them, and take those later readings as the before values.',
  };
}

export function treatedWallsWettest(facts: Facts): Weakness | undefined {
  const { allocation, outcome } = facts.trial.protocol;
  const difference = baselineDifference(facts);
  if (allocation.method !== 'chosen' || difference === undefined) return undefined;
  const worse = outcome.better === 'lower' ? 1 : -1;
  const isWorse = worse * (difference.treated - difference.untreated) > 0;
  if (!isWorse || (difference.standardised !== undefined && Math.abs(difference.standardised) < noteworthy))
    return undefined;
  return {
    code: 'treated-walls-wettest',
    seriousness: 'serious',
    text: `The walls chosen for treatment were the worse ones beforehand (${quantityInWords(difference.treated, outcome.unit)} against ${quantityInWords(difference.untreated, outcome.unit)}): walls picked at their worst tend to read better next time whatever is done to them.`,
    remedy: 'Choose the walls first, then draw by lot which of them are treated.',
  };
}
