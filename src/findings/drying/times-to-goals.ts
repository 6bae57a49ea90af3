import { type Answer, compareWalls, type Named, type WallComparison } from '../../analysis/index.js';
import { daysUntilDry, followedUntilDry, intervalUntilDry, type TimeToDry, timeToDry } from '../../drying/index.js';
import { itemAt } from '../../plain/in-order.js';
import { present } from '../../plain/present.js';
import { orInstead, unlessRefused } from '../../plain/unless-refused.js';
import {
  type ClusteredTime,
  type EventMass,
  type FollowedTime,
  type IntervalTime,
  intervalCensored,
  isStatisticsError,
  type LogRank,
  logRank,
  productLimit,
  survivingAt,
} from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import type { TimesOfArms, TimesToDry, TimesToFall, WallCurve } from './drying-part.js';

/** How low a wall has to come: lower than at the start by so much, or down to a moisture. */
type Goal = { readonly kind: 'fall'; readonly by: number } | { readonly kind: 'dry'; readonly limit: number };

function timeToGoal(curve: WallCurve, goal: Goal): TimeToDry {
  return timeToDry(curve, goal.kind === 'fall' ? itemAt(curve.moisture, 0) - goal.by : goal.limit);
}

/**
 * When each wall had fallen by the margin, and when it had come to the moisture that the plan calls dry; nothing of what the plan
 * does not state.
 */
export function timesToGoals(
  { protocol: { margin, dryBelow } }: Trial,
  curves: readonly WallCurve[],
): { readonly times?: TimesToFall; readonly timesToDry?: TimesToDry } {
  return {
    ...(margin === undefined ? {} : { times: { fall: margin, ...timesOf({ kind: 'fall', by: margin }, curves) } }),
    ...(dryBelow === undefined
      ? {}
      : { timesToDry: { limit: dryBelow, ...timesOf({ kind: 'dry', limit: dryBelow }, curves) } }),
  };
}

function timesOf(goal: Goal, curves: readonly WallCurve[]): TimesOfArms {
  const times = curves.map((curve) => {
    const between = timeToGoal(curve, goal);
    const group = curve.side === 'treated' ? ('x' as const) : ('y' as const);
    return { ...followedUntilDry(between), between, arm: curve.arm, group, cluster: curve.wall };
  });
  const days = daysToTell(times);
  const sorted = curves.toSorted((one, other) => Number(other.side === 'treated') - Number(one.side === 'treated'));
  const arms = [...new Set(sorted.map(({ arm }) => arm))].map((arm) => armOf(arm, times, days));
  const test = logRankIfAny(times);
  return { arms, days, ...present({ logRank: test }) };
}

type TimeOfWall = FollowedTime & { readonly between: TimeToDry; readonly arm: string };

function armOf(arm: string, times: readonly TimeOfWall[], days: readonly number[]): TimesOfArms['arms'][number] {
  const own = times.filter((one) => one.arm === arm);
  const estimate = productLimit(own);
  const half = estimate.steps.find(({ surviving }) => surviving <= 0.5);
  const between = medianBetween(own);
  return {
    arm,
    walls: own.length,
    fallen: estimate.events,
    ...(half === undefined ? {} : { median_d: half.time }),
    ...present({ medianBetween_d: between }),
    course: days.map((day) => {
      const followed = own.filter(({ time, end }) => time > day || (time === day && end === 'censored')).length;
      // Beyond the last visit of an arm nothing is known of walls that had not fallen by then.
      const isKnown = day <= estimate.lastTime || estimate.steps.at(-1)?.surviving === 0;
      return { followed, ...(isKnown ? { notYet: survivingAt(estimate, day) } : {}) };
    }),
  };
}

/** By the estimate that knows of each wall only between which visits it came so far. */
function medianBetween(own: readonly TimeOfWall[]): { readonly after: number; readonly by: number } | undefined {
  const masses = massesIfFound(own.map(({ between }) => intervalUntilDry(between)));
  let share = 0;
  for (const mass of masses) {
    share += mass.share;
    if (share < 0.5 - 1e-9) continue;
    return Number.isFinite(mass.by) ? { after: mass.after, by: mass.by } : undefined;
  }
  return undefined;
}

function massesIfFound(times: readonly IntervalTime[]): readonly EventMass[] {
  return orInstead(
    isStatisticsError,
    () => intervalCensored(times).masses,
    () => [],
  );
}

const roundDays = [7, 14, 30, 60, 90, 120, 180, 270, 365, 545, 730, 1095, 1460, 1825];
const mostDays = 7;

/** Round numbers of days while walls fall, and none after all had. */
function daysToTell(times: readonly FollowedTime[]): readonly number[] {
  const events = times.filter(({ end }) => end === 'event').map(({ time }) => time);
  const [first, last] = [Math.min(...events), Math.max(...times.map(({ time }) => time))];
  const from = roundDays.findLastIndex((day) => day <= first);
  const to = roundDays.findIndex((day) => day >= last);
  const days = roundDays.slice(Math.max(0, from), to < 0 ? roundDays.length : to + 1);
  const step = Math.ceil(days.length / mostDays);
  // The last days are kept: they say how many walls were left.
  return days.filter((_, k) => (days.length - 1 - k) % step === 0);
}

/**
 * Days until each wall had fallen by the margin, and until it was as dry as the plan says, compared; nothing of what the plan does
 * not state.
 */
export function daysToGoalsAnswers(trial: Trial, curves: readonly WallCurve[], period_d: number): readonly Answer[] {
  const { margin, dryBelow, outcome } = trial.protocol;
  return [
    ...(margin === undefined
      ? []
      : daysToGoal(trial, curves, period_d, {
          goal: { kind: 'fall', by: margin },
          id: 'days-to-fall',
          about: { kind: 'drying', days: period_d },
        })),
    ...(dryBelow === undefined
      ? []
      : daysToGoal(trial, curves, period_d, {
          goal: { kind: 'dry', limit: dryBelow },
          id: 'days-to-dry',
          about: { kind: 'drying', days: period_d, dryBelow, unit: outcome.unit },
        })),
  ];
}

interface NamedGoal extends Required<Named> {
  readonly goal: Goal;
}

/**
 * The difference counts the days that all curves cover, in which nothing is censored; the ratio needs every wall to have come so
 * far, and where one had not it counts those same days.
 */
function daysToGoal(
  { protocol: { confidence: level } }: Trial,
  curves: readonly WallCurve[],
  period_d: number,
  { goal, id, about }: NamedGoal,
): readonly Answer[] {
  const times = curves.map((curve) => ({ ...curve, time: timeToGoal(curve, goal) }));
  const compared = (until_d: number, what: Pick<WallComparison, 'id' | 'scale'>) =>
    compareWalls(
      times.map(({ time, ...wall }) => ({ ...wall, value: daysUntilDry(time, until_d) })),
      { ...what, about, unit: 'days', level },
    );
  const difference = compared(period_d, { id, scale: 'difference' });
  const ratio = { id: `${id}-ratio`, about };
  const late = times.filter(({ time }) => time.by_d === undefined).length;
  if (late === 0) return [difference, compared(Number.POSITIVE_INFINITY, { id: ratio.id, scale: 'ratio' })];
  const standIn = compared(period_d, { id: `${id}-ratio-restricted`, scale: 'ratio' });
  const countedTo = standIn.kind === 'estimated' ? { countedTo_d: period_d } : {};
  const reason = { code: 'not-all-so-far', late, of: times.length, ...countedTo } as const;
  return [difference, standIn, { kind: 'not-estimated', notEstimated: { ...ratio, reason } }];
}

function logRankIfAny(times: readonly ClusteredTime[]): LogRank | undefined {
  return unlessRefused(isStatisticsError, () => logRank(times));
}
