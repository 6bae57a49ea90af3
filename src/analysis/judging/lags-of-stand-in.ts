import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween, middleDay } from '../../plain/days.js';
import { daySorter, type Trial, type Windows } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import { predictionInsideArms, standInWalls, valuesByStation } from './stand-in-walls.js';

export interface LagOfStandIn {
  /** First day of the visit. */
  readonly day: string;
  /** From the visit to the middle of the after window; below zero where the visit came later. */
  readonly delay_days: number;
  /** Moisture change per unit of the stand-in's change up to that visit, inside arms. */
  readonly prediction: Answer;
}

/** Readings further apart than this are of two visits. */
const DAYS_INSIDE_A_VISIT = 7;

/**
 * The association of stand-in and moisture for each later visit by itself: a stand-in that leads moisture foretells it after some
 * delay and not after others. Many are tried, so that one in twenty leaves out zero by chance.
 *
 * @returns nothing where fewer than two later visits hold four walls
 * @example lagsOfStandIn(trial, design, readings, 'voltage').map(({ delay_days }) => delay_days) // [203, 112, 0]
 */
export function lagsOfStandIn(
  trial: Trial,
  design: ComparisonDesign,
  standIn: readonly MoistureReading[],
  instrument: string,
): readonly LagOfStandIn[] {
  const { windows } = trial.protocol;
  // Where walls were treated one after the other, a visit lies at another distance from each.
  if (windows === undefined || trial.walls.some((wall) => wall.windows !== undefined)) return [];
  const sorted = daySorter(trial);
  const before = valuesByStation(standIn.filter(({ wall, day }) => sorted(wall, day) === 'before'));
  const lags = visitsOf(standIn, windows).flatMap(([first, last]): LagOfStandIn[] => {
    const later = standIn.filter(({ day }) => day >= first && day <= last);
    const walls = standInWalls(design, before, valuesByStation(later));
    if (walls.length < 4) return [];
    const prediction = predictionInsideArms(trial, comparisonDesign(walls).design, instrument);
    return [{ day: first, delay_days: daysBetween(first, middleDay(windows.after)), prediction }];
  });
  return lags.length < 2 ? [] : lags;
}

/** First and last day of every visit after the before window and up to the end of the after window. */
function visitsOf(standIn: readonly MoistureReading[], { before, after }: Windows): readonly [string, string][] {
  const days = [...new Set(standIn.map(({ day }) => day))].filter((day) => day > before.to && day <= after.to).sort();
  const visits: [string, string][] = [];
  for (const day of days) {
    const visit = visits.at(-1);
    if (visit !== undefined && daysBetween(visit[0], day) <= DAYS_INSIDE_A_VISIT) visit[1] = day;
    else visits.push([day, day]);
  }
  return visits;
}
