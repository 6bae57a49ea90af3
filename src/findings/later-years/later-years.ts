import { type Primary, primaryDifference, type WallChange } from '../../analysis/index.js';
import { designFromReadings } from '../../analysis/judging/answer-from-readings.js';
import type { MoistureReading } from '../../moisture/index.js';
import { yearsLater } from '../../plain/calendar.js';
import { addDays } from '../../plain/days.js';
import { valuesBy } from '../../plain/group-by.js';
import { type Trial, type Window, type Windows, windowsOf } from '../../trial/index.js';

/** How the walls stood in one year after their treatment, against what they held before it. */
export interface LaterYear {
  /** 2 is the second year: from one year after a wall’s own treatment until two years after it. */
  readonly year: number;
  /** First and last day of the readings that count. */
  readonly days: Window;
  readonly readings: number;
  /** The primary analysis with that year in place of the after window. */
  readonly answer: Primary;
  /** The walls, or what counts as one, that were read before and in that year: `after` is the mean of that year. */
  readonly walls: readonly WallChange[];
}

/**
 * The primary comparison again in each year whose readings lie beyond the plan’s after window. Each wall’s years count from its own
 * treatment, an untreated wall’s from that of its partners. Readings inside the after window are the primary answer’s and never enter.
 *
 * @param readings of the outcome’s instrument
 * @param startOf the day from which each compared wall’s years count
 */
export function laterYears(
  trial: Trial,
  readings: readonly MoistureReading[],
  startOf: ReadonlyMap<string, string>,
): readonly LaterYear[] {
  const windows = new Map([...startOf.keys()].map((wall) => [wall, windowsOf(trial, wall)]));
  const yearIfLate = ({ wall, day, value }: MoistureReading): number | undefined => {
    const [start, own] = [startOf.get(wall), windows.get(wall)];
    const isLate = start !== undefined && own !== undefined && value.kind === 'measured' && day > own.after.to;
    return isLate ? yearOf(start, day) : undefined;
  };
  const late = valuesBy(readings, yearIfLate, ({ day }) => day);
  return [...late]
    .sort(([one], [other]) => one - other)
    .map(([year, days]) => {
      const design = designFromReadings(inYear(trial, startOf, year), readings);
      const { confidence: level, outcome } = trial.protocol;
      const sorted = days.toSorted();
      return {
        year,
        days: { from: sorted[0] ?? '', to: sorted.at(-1) ?? '' },
        readings: days.length,
        answer: primaryDifference(design, { level, unit: outcome.unit }),
        walls: design.walls,
      };
    });
}

/** The trial with one year after each wall’s treatment for its after window. */
function inYear(trial: Trial, startOf: ReadonlyMap<string, string>, year: number): Trial {
  const walls = trial.walls.map((wall) => {
    const [start, windows] = [startOf.get(wall.wall), windowsOf(trial, wall.wall)];
    if (start === undefined || windows === undefined) return wall;
    return { ...wall, windows: { before: windows.before, after: windowOfYear(windows, start, year) } };
  });
  return { ...trial, walls };
}

function windowOfYear({ after }: Windows, start: string, year: number): Window {
  const [begin, beyond] = [anniversary(start, year - 1), addDays(after.to, 1)];
  return { from: [begin, beyond].sort().at(-1) ?? begin, to: addDays(anniversary(start, year), -1) };
}

/** 1 in the first year. */
function yearOf(start: string, day: string): number {
  const years = Number(day.slice(0, 4)) - Number(start.slice(0, 4));
  return day < anniversary(start, years) ? years : years + 1;
}

function anniversary(day: string, years: number): string {
  return yearsLater(day, years, 'after');
}
