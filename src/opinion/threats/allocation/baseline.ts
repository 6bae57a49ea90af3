import type { Answer, Side } from '../../../analysis/index.js';
import { limits } from '../../../findings/limits.js';
import { reasonInWords } from '../../../labels/index.js';
import { mean } from '../../../statistics/index.js';
import { movementInWords } from '../../../words/movement.js';
import { differenceInWords, numberInWords, quantityInWords } from '../../../words/quantity.js';
import { allocatedTo, type Facts, isRandomised, wallsOn } from '../facts.js';
import type { ThreatNumbers } from '../grounds.js';
import { type Direction, found, notFound, type Search } from '../threat.js';
import { alarmOf, measureOf, numbersOf, pushOf, unitOf } from '../threat-words.js';

/** Means of the sides before the treatment; nothing where a side was not read. */
function meansBefore({ atStart }: ThreatNumbers): { readonly treated: number; readonly untreated: number } | undefined {
  const before = (side: Side) => atStart.flatMap((wall) => (wall.side === side ? (wall.before ?? []) : []));
  const [treated, untreated] = [before('treated'), before('untreated')];
  return treated.length === 0 || untreated.length === 0
    ? undefined
    : { treated: mean(treated), untreated: mean(untreated) };
}

const spreads = { pairs: 'pair differences', blocks: 'walls inside blocks', walls: 'walls' } as const;

/** Walls that start worse come down by themselves, and walls that start better come up. */
function directionOf(facts: Facts, difference: number): Direction {
  return pushOf(facts, difference) === 'towards the claim' ? 'away from the claim' : 'towards the claim';
}

export const beforeValuesUnlike: Search = {
  code: 'before-values-unlike',
  domain: 'allocation',
  name: 'Walls unlike at the start',
  lookedFor: 'the arms differed before the treatment, in pairs and blocks inside them',
  direction: 'either way',
  remedy: 'Pair or block the walls by their before values and randomise inside; see the baseline-adjusted analysis.',
  look: ({ facts, numbers }) => {
    const answer = negativeControl(numbers, 'baseline-difference');
    const means = meansBefore(numbers);
    if (answer?.kind !== 'estimated' || means === undefined) return undefined;
    const { estimate } = answer;
    const { unit } = facts.trial.protocol.outcome;
    const standardised = numbers.before?.standardised;
    const apart =
      standardised === undefined || numbers.before === undefined
        ? ''
        : ` (${numberInWords(Math.abs(standardised))} standard deviations of ${spreads[numbers.before.of]})`;
    const text = `Before the treatment the treated walls stood at ${quantityInWords(means.treated, unit)} and the untreated at ${quantityInWords(means.untreated, unit)}. The difference is ${numbersOf(estimate)}${apart}.`;
    const more = { measure: measureOf(estimate), direction: directionOf(facts, estimate.estimate) };
    const alarm = seriousnessOf(facts, answer, standardised);
    return alarm === undefined ? notFound(text, more) : found(alarm, text, more);
  },
};

/**
 * Randomised walls differ by chance, and the comparison of changes has taken the difference off already: only what chance seldom
 * makes counts. Walls that were chosen may differ in anything that goes with the before values.
 */
function seriousnessOf(facts: Facts, answer: Answer, standardised = 0) {
  const alarm = alarmOf(answer);
  if (isRandomised(facts)) return alarm;
  return alarm !== undefined || Math.abs(standardised) >= limits.beforeApart_sd.value ? 'serious' : undefined;
}

function negativeControl({ nothing }: ThreatNumbers, id: string): Answer | undefined {
  return nothing.find((answer) => (answer.kind === 'estimated' ? answer.estimate.id : answer.notEstimated.id) === id);
}

export const treatedWallsWettest: Search = {
  code: 'treated-walls-wettest',
  domain: 'allocation',
  name: 'The worst walls chosen for treatment',
  lookedFor: 'the walls chosen for treatment were the worst ones beforehand',
  direction: 'towards the claim',
  remedy: 'Choose the walls first, then randomise which of them are treated.',
  look: ({ facts, numbers }) => {
    const { outcome } = facts.trial.protocol;
    const means = meansBefore(numbers);
    if (isRandomised(facts) || means === undefined) return undefined;
    const worse = outcome.better === 'lower' ? 1 : -1;
    const isWorse = worse * (means.treated - means.untreated) > 0;
    const compared = `${quantityInWords(means.treated, outcome.unit)} against ${quantityInWords(means.untreated, outcome.unit)}`;
    const standardised = numbers.before?.standardised;
    const isApart = standardised === undefined || Math.abs(standardised) >= limits.beforeApart_sd.value;
    if (!isWorse || !isApart) return notFound(`The walls chosen for treatment were not the worst ones (${compared}).`);
    return found(
      'serious',
      `The walls chosen for treatment were the worse ones beforehand (${compared}). Walls picked at their worst tend to read better next time, regardless of what is done to them.`,
    );
  },
};

export const wallsChosenWettest: Search = {
  code: 'walls-chosen-wettest',
  domain: 'allocation',
  name: 'Walls picked for being wet',
  lookedFor: 'the walls were taken into the trial at their worst (regression to the mean)',
  direction: 'towards the claim',
  remedy: 'Read the walls again after choosing them, and take those later readings as the before values.',
  look: ({ facts, numbers }) => {
    const { selection } = facts.trial.protocol;
    if (selection === undefined) return undefined;
    if (selection !== 'wettest') return notFound('The plan says that walls were not picked by their moisture.');
    const isShared = isRandomised(facts) && allocatedTo(facts, 'untreated') > 0;
    const shared = isShared ? ' The untreated walls, randomised from the same walls, share that.' : '';
    const { fall, isAlone, isShare } = regression(facts, numbers);
    return found(
      isShared && !isShare ? 'minor' : 'serious',
      `The walls were taken into the trial for being wet. Walls picked at their worst tend to read better next time, regardless of what is done to them.${shared} ${fallInWords(facts, fall)}${isShare ? ' Among walls of the same before value the difference could be zero: that fall may be all there is.' : ''}`,
      {
        ...(fall !== undefined && !('code' in fall) ? { measure: { value: fall.expected, unit: unitOf(facts) } } : {}),
        ...(isAlone ? { tipping: 'There is no comparison with walls picked in the same way.' } : {}),
      },
    );
  },
};

/** Whether walls of the same before value still differ where all walls do. */
function regression(facts: Facts, { fall }: ThreatNumbers) {
  const adjusted = facts.analyses.flatMap((answer) =>
    answer.kind === 'estimated' && answer.estimate.id === 'baseline-adjusted' ? [answer.estimate] : [],
  )[0];
  const isAlone = facts.primary.kind !== 'estimated';
  const includesZero = (interval: { readonly lower: number; readonly upper: number }) =>
    interval.lower <= 0 && interval.upper >= 0;
  const isShare =
    adjusted?.interval !== undefined &&
    facts.primary.kind === 'estimated' &&
    !includesZero(facts.primary.estimate.interval) &&
    includesZero(adjusted.interval);
  return { fall, isAlone, isShare };
}

function fallInWords(facts: Facts, fall: ThreatNumbers['fall']): string {
  if (fall === undefined) return '';
  if ('code' in fall) return `The expected fall without any treatment is not known: ${reasonInWords(fall)}.`;
  const { better } = facts.trial.protocol.outcome;
  const changes = wallsOn(facts, 'treated').map(({ change }) => change);
  const expected = `With nothing done, such walls are expected to ${better === 'lower' ? 'fall' : 'rise'} by ${differenceInWords(fall.expected, unitOf(facts))} (reliability of a reading ${numberInWords(fall.reliability, 2)}).`;
  if (changes.length === 0) return expected;
  const change = mean(changes);
  const corrected = better === 'lower' ? change + fall.expected : change - fall.expected;
  return `${expected} The treated walls ${movementInWords(change, unitOf(facts))}; adjusted for that they ${movementInWords(corrected, unitOf(facts))}.`;
}
