import { type Adjustment, type Answer, adjustedDifference, type Named, type WallVisit } from '../../analysis/index.js';
import { itemAt } from '../../plain/in-order.js';
import { mean } from '../../statistics/index.js';
import { type AdjustmentName, daySorter, type Trial } from '../../trial/index.js';
import { placesBeside } from '../air/places-beside.js';
import { pressureByWall } from '../air/pressure-by-wall.js';
import { amountBefore, stretchesByPlace } from './amounts-before.js';
import type { WallCurve } from './drying-part.js';
import { pressureBefore } from './weather.js';
import { hasNoWindows } from './windows-of-walls.js';

type Weather = Exclude<AdjustmentName, 'season'>;

/**
 * The difference of changes with the season and, where they were recorded or the plan names them, with weather, rain and heating taken
 * off one by one; where the plan names several, together as well.
 */
export function adjustedAnswers(trial: Trial, curves: readonly WallCurve[]): readonly Answer[] {
  const { adjustments: planned = [] } = trial.protocol;
  if (hasNoWindows(trial)) return [];
  const recorded = recordedWeather(trial);
  const visits = visitsOf(trial, curves);
  const names = (['season', 'weather', 'rain', 'heating'] as const).filter(
    (name) => name === 'season' || recorded.has(name) || planned.includes(name),
  );
  const together = names.filter((name) => planned.includes(name));
  return [
    ...names.map((name) => answerOf(trial, visits, recorded, [name], `${name}-adjusted`)),
    ...(together.length < 2 ? [] : [answerOf(trial, visits, recorded, together, 'planned-adjusted')]),
  ];
}

/** What there is to read off for a wall on a day. */
type WeatherAt = (wall: string, day: string) => number | undefined;

function answerOf(
  { protocol }: Trial,
  visits: readonly WallVisit[],
  recorded: ReadonlyMap<Weather, WeatherAt>,
  names: readonly AdjustmentName[],
  id: string,
): Answer {
  const named: Named = { id, about: { kind: 'adjustments', names } };
  const weather = names.filter((name) => name !== 'season');
  const missing = weather.filter((name) => !recorded.has(name));
  if (missing.length > 0)
    return {
      kind: 'not-estimated',
      notEstimated: { ...named, reason: { code: 'weather-not-recorded', names: missing } },
    };
  // A visit before the record began cannot enter.
  const kept = visits.flatMap((visit) => {
    const values = weather.flatMap((name) => {
      const value = recorded.get(name)?.(visit.wall, visit.day);
      return value === undefined ? [] : [[name, value] as const];
    });
    return values.length < weather.length ? [] : [{ ...visit, weather: Object.fromEntries(values) }];
  });
  const what: Adjustment = { ...named, season: names.includes('season'), weather };
  return adjustedDifference(kept, what, { level: protocol.confidence, unit: protocol.outcome.unit });
}

function visitsOf(trial: Trial, curves: readonly WallCurve[]): readonly WallVisit[] {
  const sorted = daySorter(trial);
  return curves.flatMap(({ wall, arm, side, block, days, moisture }) =>
    days.flatMap((day, k): WallVisit[] => {
      const window = sorted(wall, day);
      if (window !== 'before' && window !== 'after') return [];
      return [{ wall, arm, side, block, day, window, moisture: itemAt(moisture, k) }];
    }),
  );
}

/** Each from the record that stands for the wall’s own. */
function recordedWeather(trial: Trial): ReadonlyMap<Weather, WeatherAt> {
  const recorded = new Map<Weather, WeatherAt>();
  const pressureOf = pressureByWall(trial);
  if (trial.walls.some(({ wall }) => pressureOf(wall) !== undefined))
    recorded.set('weather', (wall, day) => pressureBefore(pressureOf(wall)?.daily ?? [], day));
  const amounts = [
    ['rain', stretchesByPlace(trial.climate, ({ rain_mm }) => rain_mm)],
    ['heating', stretchesByPlace(trial.climate, ({ heating_h }) => heating_h)],
  ] as const;
  for (const [name, places] of amounts) {
    if (places.length === 0) continue;
    const byPlace = new Map(places);
    const beside = placesBeside(trial.walls, [...byPlace.keys()]);
    recorded.set(name, (wall, day) => {
      const own = (beside(wall)?.places ?? []).flatMap((place) => amountBefore(byPlace.get(place) ?? [], day) ?? []);
      return own.length === 0 ? undefined : mean(own);
    });
  }
  return recorded;
}
