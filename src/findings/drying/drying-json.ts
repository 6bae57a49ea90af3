import type { Answer } from '../../analysis/index.js';
import { labelOf, reasonInWords } from '../../labels/index.js';
import { dryingFactsJson } from './drying-facts-json.js';
import type { DryingPart, TimesOfArms } from './drying-part.js';

/** The field `drying` of `opinion.json`: comparisons in the shape of the analyses, times to fall and to dry by arm, or the reason why there are none. */
export function dryingJson(drying: DryingPart) {
  const facts = dryingFactsJson(drying);
  if (drying.kind === 'not-shown') return { reason: reasonInWords(drying.reason), ...facts };
  const { start, lastStart, period_d, curves, losses, changes, answers, adjusted, times, timesToDry } = drying;
  const all = [...answers, ...adjusted];
  return {
    start,
    lastStart,
    days: period_d,
    walls: curves.map(({ wall }) => wall),
    losses: losses.map(({ index, ...loss }) => ({ ...loss, dryingIndex: index ?? null })),
    changesOfStage: changes.map(({ wall, day, interval }) => ({
      wall,
      day,
      interval: interval === undefined ? null : { ...interval },
    })),
    comparisons: all.flatMap(estimateOf),
    notEstimated: all.flatMap(notEstimatedOf),
    timesToFall: times === undefined ? null : { fall: times.fall, ...timesOf(times) },
    timesToDry: timesToDry === undefined ? null : { dryBelow: timesToDry.limit, ...timesOf(timesToDry) },
    ...facts,
  };
}

function notEstimatedOf(answer: Answer) {
  if (answer.kind === 'estimated') return [];
  const { id, reason } = answer.notEstimated;
  return [{ id, label: labelOf(answer.notEstimated), reason: reasonInWords(reason) }];
}

function estimateOf(answer: Answer) {
  if (answer.kind === 'not-estimated') return [];
  const { id, unit, estimate, interval, pValue } = answer.estimate;
  return [{ id, unit, estimate, interval: interval === undefined ? null : { ...interval }, pValue: pValue ?? null }];
}

function timesOf({ arms, days, logRank }: TimesOfArms) {
  return {
    days: [...days],
    arms: arms.map(({ arm, walls, fallen, median_d, medianBetween_d, course }) => ({
      arm,
      walls,
      fallen,
      medianDay: median_d ?? null,
      medianBetweenDays: medianBetween_d === undefined ? null : [medianBetween_d.after, medianBetween_d.by],
      notYet: course.map(({ notYet }) => notYet ?? null),
      followed: course.map(({ followed }) => followed),
    })),
    logRankPValue: logRank?.clustered.pValue ?? null,
  };
}
