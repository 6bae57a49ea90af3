import { type Adjustment, type Answer, adjustedDifference, type WallVisit } from '../../analysis/index.js';
import { isInWindow, type Trial } from '../../trial/index.js';
import type { WallCurve } from './drying-part.js';
import { dailyPressure, pressureBefore } from './weather.js';

const air = 'vapour pressure difference of the thirty days before';

/** The difference of changes with the season and, where the air was recorded, with the weather taken off. */
export function adjustedAnswers(trial: Trial, curves: readonly WallCurve[]): readonly Answer[] {
  const { windows, confidence: level, outcome } = trial.protocol;
  if (windows === undefined) return [];
  const daily = dailyPressure(trial);
  const visits = curves.flatMap(({ wall, arm, side, block, days, moisture }) =>
    days.flatMap((day, k): WallVisit[] => {
      const window = isInWindow(day, windows.before) ? 'before' : isInWindow(day, windows.after) ? 'after' : undefined;
      if (window === undefined) return [];
      const pressure = pressureBefore(daily, day);
      const weather = pressure === undefined ? {} : { weather: { [air]: pressure } };
      return [{ wall, arm, side, block, day, window, moisture: moisture[k] as number, ...weather }];
    }),
  );
  const season: Adjustment = { id: 'season-adjusted', label: 'Adjusted for the season', season: true, weather: [] };
  const weather: Adjustment = {
    id: 'weather-adjusted',
    label: 'Adjusted for the weather',
    season: false,
    weather: [air],
  };
  const options = { level, unit: outcome.unit };
  const bySeason = adjustedDifference(visits, season, options);
  if (daily.length === 0) return [bySeason];
  // A visit before the record of the air began cannot enter.
  const recorded = visits.filter((visit) => visit.weather !== undefined);
  return [bySeason, adjustedDifference(recorded, weather, options)];
}
