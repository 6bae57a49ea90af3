import {
  type Answer,
  type ComparisonDesign,
  pairedSeriesAnswers,
  pairedSeriesOverPairs,
  type SeriesChecks,
  type SeriesOfWalls,
  type Side,
  seriesChecks,
  seriesOfWalls,
} from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import type { Trial } from '../../trial/index.js';
import { pressureByWall } from '../air/pressure-by-wall.js';
import { pressureBefore } from '../drying/weather.js';

/** What the opinion knows of a trial with two walls, beside the primary answer. */
export interface TwoWallSeries {
  readonly series: SeriesOfWalls;
  /** Absent where the series is too short or cannot be judged. */
  readonly checks?: SeriesChecks;
}

/** The series of a trial that compares one treated with one untreated wall; undefined for any other trial. */
export function seriesOfTwoWalls(
  trial: Trial,
  used: readonly MoistureReading[],
  design: ComparisonDesign,
  sides: ReadonlyMap<string, Side>,
): TwoWallSeries | undefined {
  const { walls } = design;
  const [treated, untreated] = [
    walls.find(({ side }) => side === 'treated'),
    walls.find(({ side }) => side === 'untreated'),
  ];
  // Where other walls were lost the two that are left are no two-wall trial.
  const isOfTwo = sides.size === 2 && design.kind !== 'confounded';
  if (!isOfTwo || treated === undefined || untreated === undefined) return undefined;
  const series = seriesOfWalls(trial, used, treated, untreated);
  const checks = seriesChecks(series, { level: trial.protocol.confidence });
  return { series, ...(checks === undefined ? {} : { checks }) };
}

interface Judged {
  readonly trial: Trial;
  readonly used: readonly MoistureReading[];
  readonly design: ComparisonDesign;
  readonly twoWalls: TwoWallSeries | undefined;
  readonly seed: number;
}

/** Answers by series of visits, beside the primary one: of two walls, or of several pairs pooled. */
export function seriesAnswers({ trial, used, design, twoWalls, seed }: Judged): readonly Answer[] {
  const options = { level: trial.protocol.confidence, unit: trial.protocol.outcome.unit };
  if (twoWalls !== undefined) {
    const weather = weatherOfVisits(trial, twoWalls.series);
    return pairedSeriesAnswers(twoWalls.series, { ...options, seed, ...(weather === undefined ? {} : { weather }) });
  }
  if (design.kind !== 'pairs') return [];
  const all = design.pairs.map(({ treated, untreated }) => seriesOfWalls(trial, used, treated, untreated));
  const pooled = pairedSeriesOverPairs(all, options);
  return pooled === undefined ? [] : [pooled];
}

/** By day of visit, the mean of what stands for either wall’s air; undefined where none was recorded. */
function weatherOfVisits(
  trial: Trial,
  { visits, treated, untreated }: SeriesOfWalls,
): ReadonlyMap<string, number> | undefined {
  const pressureOf = pressureByWall(trial);
  const [one, other] = [pressureOf(treated.wall)?.daily, pressureOf(untreated.wall)?.daily];
  if (one === undefined || other === undefined) return undefined;
  return new Map(
    visits.flatMap(({ day }): [string, number][] => {
      const [own, beside] = [pressureBefore(one, day), pressureBefore(other, day)];
      return own === undefined || beside === undefined ? [] : [[day, (own + beside) / 2]];
    }),
  );
}
