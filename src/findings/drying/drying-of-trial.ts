import {
  type Answer,
  compareWalls,
  type DryingObservation,
  dryingRateRatio,
  type Reason,
  type Side,
  type UnitKind,
} from '../../analysis/index.js';
import {
  commonPeriod_d,
  dryingIndex,
  fitDryingModel,
  isDryingError,
  naturalDryingPrompt_d,
} from '../../drying/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { orInstead, unlessRefused } from '../../plain/unless-refused.js';
import type { Trial } from '../../trial/index.js';
import { adjustedAnswers } from './adjusted-answers.js';
import { type DryingFacts, dryingFacts } from './drying-facts.js';
import type { DryingPart, DryingShown, WallCurve } from './drying-part.js';
import { lossesOfArms, lostBy } from './losses-of-arms.js';
import { meansOfArms } from './means-of-arms.js';
import { type FittedWall, fitsOfWalls, shapesOfWalls } from './shapes-of-walls.js';
import { startsOfWalls } from './starts-of-walls.js';
import { daysToGoalsAnswers, timesToGoals } from './times-to-goals.js';
import { curvesOfWalls, type NumberRead, outcomeReadings } from './wall-curves.js';
import { weeklyPressure } from './weather.js';

/** Fewer visits after the start make a difference and no curve. */
const fewestVisits = 4;
const fullYear_d = 365;

/**
 * What a trial tells of drying over time: curves of walls, rates, losses and times compared, season and weather beside them.
 *
 * @param unit what the walls count as in the comparison
 * @param facts where they are known already
 */
export function dryingOfTrial(
  trial: Trial,
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
  unit: UnitKind = 'wall',
  facts: DryingFacts = dryingFacts(trial, readings, sides),
): DryingPart {
  const curves = curvesOfTrial(trial, readings, sides);
  if ('code' in curves) return { ...facts, kind: 'not-shown', reason: curves };
  const answers = ofUnits(curves.answers, unit);
  return { ...facts, ...curves, answers, adjusted: ofUnits(curves.adjusted, unit) };
}

/** These answers count each wall: where several were allocated as one, their intervals would be too short. */
function ofUnits(answers: readonly Answer[], unit: UnitKind): readonly Answer[] {
  if (unit === 'wall') return answers;
  return answers.map((answer) => {
    if (answer.kind === 'not-estimated') return answer;
    const { id, about } = answer.estimate;
    const reason = { code: 'wall-count-not-unit-count', units: unit } as const;
    return { kind: 'not-estimated', notEstimated: { id, ...present({ about }), reason } };
  });
}

/** Or why none are shown. */
function curvesOfTrial(
  trial: Trial,
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): Omit<DryingShown, keyof DryingFacts> | Reason {
  const { outcome, instruments } = trial.protocol;
  const read = instruments.find(({ instrument }) => instrument === outcome.instrument);
  if (read?.fromTrays === 'refill') return { code: 'outcome-is-uptake' };
  if (read?.kind === 'potential') return { code: 'outcome-is-voltage' };
  if (outcome.better === 'higher') return { code: 'higher-is-better' };
  const starts = startsOfWalls(trial, sides);
  if (starts === undefined) return { code: 'no-day-to-count-from' };
  const observed = outcomeReadings(trial, readings, sides).filter(({ wall }) => starts.startOf.has(wall));
  const startOf = (wall: string) => starts.startOf.get(wall) ?? '';
  const { curves: whole, leftOut } = curvesOfWalls(trial, observed, sides, startOf);
  const counted = whole.map(sinceStart);
  const curves = counted.filter(({ times_d }) => times_d.filter((time) => time > 0).length >= fewestVisits);
  if (new Set(curves.map(({ side }) => side)).size < 2) {
    const most = Math.max(0, ...counted.map(({ times_d }) => times_d.filter((time) => time > 0).length));
    return { code: 'too-few-visits-after', needed: fewestVisits, most };
  }
  const gone = counted.filter((curve) => !curves.includes(curve));
  const period_d = commonPeriod_d(curves);
  const weather = weeklyPressure(trial, curves);
  const fitted = fitsOfWalls(curves);
  const { shapes, changes } = shapesOfWalls(fitted, trial.protocol.confidence);
  const days = curves.map(({ wall }) => startOf(wall)).sort();
  return {
    kind: 'shown',
    start: days[0] ?? '',
    lastStart: days.at(-1) ?? '',
    startIs: starts.startIs,
    curves,
    means: meansOfArms(curves, trial.protocol.confidence),
    leftOut: [
      ...leftOut,
      ...gone.map(({ wall }) => ({ wall, reason: { code: 'wall-with-few-visits', needed: fewestVisits } as const })),
    ],
    period_d,
    ...promptOf(trial, curves),
    answers: [
      ...answersOf(trial, {
        curves,
        fitted,
        shapes,
        observations: observationsOf(observed, curves, startOf),
        period_d,
      }),
      ...daysToGoalsAnswers(trial, curves, period_d),
    ],
    losses: lossesOfArms(curves, period_d),
    shapes,
    changes,
    ...timesToGoals(trial, curves),
    adjusted: adjustedAnswers(trial, whole),
    ...(weather.length === 0 ? {} : { weather }),
  };
}

/** From the last visit on or before the start, which counts as day 0. */
function sinceStart(curve: WallCurve): WallCurve {
  const from = Math.max(
    0,
    curve.times_d.findLastIndex((time) => time <= 0),
  );
  return {
    ...curve,
    days: curve.days.slice(from),
    times_d: curve.times_d.slice(from).map((time) => Math.max(0, time)),
    moisture: curve.moisture.slice(from),
  };
}

/** A rule of thumb for the calendar, and no test. */
function promptOf({ walls }: Trial, curves: readonly WallCurve[]): Pick<DryingShown, 'prompt'> {
  const compared = new Set(curves.map(({ wall }) => wall));
  const thicknesses = walls.flatMap(({ wall, thickness_mm = 0 }) =>
    compared.has(wall) && thickness_mm > 0 ? [thickness_mm] : [],
  );
  if (thicknesses.length === 0) return {};
  const [least, most] = [Math.min(...thicknesses), Math.max(...thicknesses)];
  const days = { least: naturalDryingPrompt_d(least), most: naturalDryingPrompt_d(most) };
  return { prompt: { thickness_mm: { least, most }, days } };
}

function observationsOf(
  read: readonly NumberRead[],
  curves: readonly WallCurve[],
  startOf: (wall: string) => string,
): readonly DryingObservation[] {
  const first = curves.map(({ wall }) => startOf(wall)).sort()[0] ?? '';
  const byWall = new Map(curves.map((curve) => [curve.wall, curve]));
  return read.flatMap(({ wall, station, day, moisture }) => {
    const curve = byWall.get(wall);
    if (curve === undefined || !curve.days.includes(day)) return [];
    const { arm, side, block } = curve;
    const time_d = Math.max(0, daysBetween(startOf(wall), day));
    const season_d = daysBetween(first, startOf(wall)) + time_d;
    return [{ wall, arm, side, block, station, time_d, season_d, moisture }];
  });
}

interface Compared extends Pick<DryingShown, 'curves' | 'shapes' | 'period_d'> {
  readonly fitted: readonly FittedWall[];
  readonly observations: readonly DryingObservation[];
}

function answersOf(
  { protocol }: Trial,
  { curves, fitted, shapes, observations, period_d }: Compared,
): readonly Answer[] {
  const { confidence: level, outcome } = protocol;
  const valued = (numberOf: (curve: WallCurve) => number) =>
    curves.map((curve) => ({ ...curve, value: numberOf(curve) }));
  const about = { kind: 'drying', days: period_d } as const;
  return [
    compareWalls(
      valued((curve) => lostBy(curve, period_d)),
      {
        id: 'water-lost',
        about,
        unit: outcome.unit,
        level,
        scale: 'difference',
      },
    ),
    compareWalls(
      valued((curve) => (30 * lostBy(curve, period_d)) / period_d),
      {
        id: 'mean-rate',
        about,
        unit: outcome.unit,
        level,
        scale: 'difference',
      },
    ),
    indexAnswer(curves, period_d, level),
    ratioByWall(fitted, shapes, level),
    dryingRateRatio(observations, { level, season: false }),
    // A shorter time cannot tell a season from the drying.
    ...(period_d >= fullYear_d ? [dryingRateRatio(observations, { level, season: true })] : []),
  ];
}

function indexAnswer(curves: readonly WallCurve[], period_d: number, level: number): Answer {
  const named = { id: 'drying-index', about: { kind: 'drying', days: period_d } } as const;
  return orInstead(
    isDryingError,
    () => {
      const values = curves.map((curve) => ({ ...curve, value: dryingIndex(curve, period_d) }));
      return compareWalls(values, {
        ...named,
        unit: '(0 dry at once, 1 stays wet)',
        level,
        scale: 'difference',
      });
    },
    () => ({ kind: 'not-estimated', notEstimated: { ...named, reason: { code: 'curve-not-above-zero' } } }),
  );
}

/** Leaving out walls that do not dry would leave out what the treatment is to be compared with. */
function ratioByWall(fitted: readonly FittedWall[], shapes: DryingShown['shapes'], level: number): Answer {
  const id = 'rate-ratio';
  const values = fitted.flatMap((wall) => {
    const value = rateOf(wall);
    return value === undefined ? [] : [{ ...wall.curve, value }];
  });
  const without = fitted.length - values.length;
  if (without > 0) {
    const reason = { code: 'walls-without-rate', without, of: fitted.length } as const;
    return { kind: 'not-estimated', notEstimated: { id, reason } };
  }
  const first = shapes.find(({ shape }) => shape === 'exponential')?.walls ?? 0;
  return compareWalls(values, {
    id,
    unit: '',
    level,
    scale: 'ratio',
    exponential: { walls: first, of: fitted.length },
  });
}

/** Walls whose curve does not fall beyond its scatter are asked as well. */
function rateOf({ curve, fits }: FittedWall): number | undefined {
  const exponential =
    fits.length > 0
      ? fits.find(({ kind }) => kind === 'exponential')
      : unlessRefused(isDryingError, () => fitDryingModel('exponential', curve));
  return exponential?.fit.held.some(({ name }) => name === 'rate') ? undefined : exponential?.estimates.rate;
}
