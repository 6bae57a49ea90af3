import type { Weakness } from '../opinion.js';
import { countInWords, numberInWords, quantityInWords } from '../words/quantity.js';
import { type Facts, wallsOn } from './facts.js';

/** Scatter that grows or shrinks is reported below this p-value: of the two tests it is the one easily upset by a wild reading. */
const plainScatter = 0.01;

/** The walls were still filling or already drying before anything was done to them. */
export function notSteadyBefore(facts: Facts): Weakness | undefined {
  const steady = facts.drying?.steady;
  if (steady === undefined) return undefined;
  const { trendPer30Days: trend, scatter, window_d, walls } = steady;
  const drifts = trend.interval.lower > 0 || trend.interval.upper < 0;
  if (!drifts && scatter.pValue >= plainScatter) return undefined;
  const { unit } = facts.trial.protocol.outcome;
  const isShared = wallsOn(facts, 'untreated').length > 1;
  const moved = trend.estimate < 0 ? 'were already drying' : 'were still getting wetter';
  const trendText = drifts
    ? `the ${countInWords(walls, 'wall')} read at least four times ${moved}, by ${quantityInWords(Math.abs(trend.estimate), unit)} in 30 days (interval ${numberInWords(trend.interval.lower)} to ${numberInWords(trend.interval.upper)})`
    : `readings scattered about their trend ${numberInWords(scatter.ratioOfVariances)} times as much in the second half as in the first (variances)`;
  const shared = isShared
    ? ' The untreated walls share what all walls did, so that this weakens a comparison less than a story of one wall.'
    : ' Nothing shows how far they would have moved on untreated.';
  return {
    code: 'not-steady-before',
    seriousness: isShared ? 'minor' : 'serious',
    text: `In the before window, ${numberInWords(window_d, 0)} days long, ${trendText}: they were not at rest when the treatment began.${shared}`,
    remedy: 'Go on reading before the treatment until the walls have come to rest, or through a whole year.',
  };
}

/** A fall that evaporation cannot have brought about. */
export function largerThanCeiling(facts: Facts): Weakness | undefined {
  const beyond = facts.drying?.beyondCeiling ?? [];
  const [first] = beyond;
  if (first === undefined) return undefined;
  const { unit } = facts.trial.protocol.outcome;
  const air = first.isFromClimate ? 'the air on record could take up' : 'is told of walls at most';
  return {
    code: 'larger-than-ceiling',
    seriousness: 'serious',
    text: `${beyond.length === 1 ? 'One wall lost' : `${countInWords(beyond.length, 'wall')} lost`} more moisture than can have evaporated: ${first.wall} fell by ${quantityInWords(first.lost, unit)} in at most ${numberInWords(first.days, 0)} days, and two faces at ${numberInWords(first.evaporation_mm_d)} mm of water a day together, which ${air}, take off ${quantityInWords(first.ceiling, unit)}. Samples from the surface alone, another instrument or another face would explain it; drying of the whole wall does not.`,
    remedy: 'Sample through the whole thickness of the wall, with the same instrument throughout, and record the air.',
  };
}
