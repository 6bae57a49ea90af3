import {
  type Answer,
  type ComparisonDesign,
  pairedSeries,
  pairedSeriesAnswers,
  pairedSeriesOverPairs,
  primaryDifference,
  type SeriesChecks,
  type SeriesOfWalls,
  type Side,
  seriesChecks,
  seriesOfWalls,
  type UnitsOfComparison,
  type WallChange,
  wallsAsOne,
} from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { itemAt } from '../../plain/in-order.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { listInWords } from '../../words/quantity.js';
import { pressureByWall } from '../air/pressure-by-wall.js';
import { pressureBefore } from '../drying/weather.js';

/** What the opinion knows of a trial with two walls, or one against several, beside the primary answer. */
export interface TwoWallSeries {
  readonly series: SeriesOfWalls;
  /** Absent where the series is too short or cannot be judged. */
  readonly checks?: SeriesChecks;
}

/**
 * The series of a trial with one wall (or site, or stretch of wall) on one side of the comparison: against the other, or the
 * mean of the others. Undefined for any other trial, where walls were lost, and where several walls in a block tell how walls
 * differ by themselves.
 */
export function seriesOfTwoWalls(
  trial: Trial,
  used: readonly MoistureReading[],
  design: ComparisonDesign,
  { units, allotted }: UnitsOfComparison,
): TwoWallSeries | undefined {
  const [treated, untreated] = [sideOf(units, 'treated'), sideOf(units, 'untreated')];
  const isSingle = Math.min(treated.length, untreated.length) === 1;
  // Where other walls were lost the two that are left are no two-wall trial.
  if (!isSingle || allotted.length > units.length || design.kind === 'confounded') return undefined;
  const options = { level: trial.protocol.confidence, unit: trial.protocol.outcome.unit };
  if (units.length > 2 && primaryDifference(design, options).kind === 'estimated') return undefined;
  const series = seriesOfWalls(trial, used, asOne(treated), asOne(untreated));
  const checks = seriesChecks(series, options);
  return { series, ...present({ checks }) };
}

function sideOf(units: readonly WallChange[], side: Side): readonly WallChange[] {
  return units.filter((unit) => unit.side === side);
}

function asOne(units: readonly WallChange[]): WallChange {
  const [first, ...more] = [itemAt(units, 0), ...units.slice(1)] as const;
  if (more.length === 0) return first;
  return wallsAsOne([first, ...more], { name: listInWords(units.map(({ wall }) => wall)), block: '', kind: 'wall' });
}

interface Judged {
  readonly trial: Trial;
  readonly used: readonly MoistureReading[];
  readonly design: ComparisonDesign;
  readonly twoWalls: TwoWallSeries | undefined;
  readonly units: readonly WallChange[];
  readonly seed: number;
}

/** Answers by series of visits, beside the primary one: of two walls, or of several pairs pooled. */
export function seriesAnswers({ trial, used, design, twoWalls, units, seed }: Judged): readonly Answer[] {
  const options = { level: trial.protocol.confidence, unit: trial.protocol.outcome.unit };
  if (twoWalls !== undefined) {
    const weather = weatherOfVisits(trial, twoWalls.series);
    return [
      ...pairedSeriesAnswers(twoWalls.series, { ...options, seed, ...present({ weather }) }),
      ...eachInTurn(trial, used, units),
    ];
  }
  if (design.kind !== 'pairs') return [];
  const all = design.pairs.map(({ treated, untreated }) => seriesOfWalls(trial, used, treated, untreated));
  const pooled = pairedSeriesOverPairs(all, options);
  return pooled === undefined ? [] : [pooled];
}

/** Where one wall stands against several: against each of these by itself, for nobody is to choose among them afterwards. */
function eachInTurn(trial: Trial, used: readonly MoistureReading[], units: readonly WallChange[]): readonly Answer[] {
  if (units.length < 3) return [];
  const options = { level: trial.protocol.confidence, unit: trial.protocol.outcome.unit };
  const [treated, untreated] = [sideOf(units, 'treated'), sideOf(units, 'untreated')];
  return treated.flatMap((one) =>
    untreated.map((other): Answer => {
      const isOfUntreated = treated.length === 1;
      const named = isOfUntreated
        ? { id: `paired-series-against-${other.wall}`, about: { kind: 'one-wall' as const, wall: other.wall } }
        : { id: `paired-series-of-${one.wall}`, about: { kind: 'one-wall' as const, wall: one.wall } };
      const answer = pairedSeries(seriesOfWalls(trial, used, one, other), options);
      return answer.kind === 'estimated'
        ? { kind: 'estimated', estimate: { ...answer.estimate, ...named } }
        : { kind: 'not-estimated', notEstimated: { ...named, reason: answer.reason } };
    }),
  );
}

/** By day of visit, the mean of what stands for the air of either side; undefined where none was recorded. */
function weatherOfVisits(
  trial: Trial,
  { visits, treated, untreated }: SeriesOfWalls,
): ReadonlyMap<string, number> | undefined {
  const pressureOf = pressureByWall(trial);
  const recordsOf = ({ wall, unit }: WallChange) => (unit?.walls ?? [wall]).map((one) => pressureOf(one)?.daily ?? []);
  const sides = [recordsOf(treated), recordsOf(untreated)];
  if (sides.some((records) => records.some(({ length }) => length === 0))) return undefined;
  return new Map(
    visits.flatMap(({ day }): [string, number][] => {
      const means = sides.map((records) => records.flatMap((daily) => pressureBefore(daily, day) ?? []));
      return means.some(({ length }) => length === 0) ? [] : [[day, mean(means.map((values) => mean(values)))]];
    }),
  );
}
