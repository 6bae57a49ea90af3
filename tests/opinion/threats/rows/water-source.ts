import type { ClimateReading, Station, Trial } from '../../../../src/index.js';
import { addDays } from '../../../../src/plain/days.js';
import { spearman } from '../../../../src/statistics/index.js';
import { type Row, rowsOf } from './row.js';
import { higher, isTreated, measured, numberOf, planned, sound, ten, visited } from './trials.js';

const origin = { file: 'climate.csv', row: 2 };

/** The air of a yard at noon on 41 days before the treatment, so many of them with a surface below the dew point of 9.3 °C. */
const condensing = (days: number, trial = sound): Trial => ({
  ...trial,
  climate: Array.from({ length: 41 }, (_, at): ClimateReading => {
    const time = `${addDays('2024-03-10', at)}T12:00`;
    // The surface crosses the dew point between two noons: five such days are 11.8 % of the time, four are 9.3 %.
    const surface_c = at >= 1 && at <= days ? 5 : 15;
    return { time, place: 'yard', temperature_c: 15, relative_humidity_pct: 69, surface_c, origin };
  }),
});

/** Ten walls, each with air of its own; the surface of the first so many stays below the dew point of 9.3 °C. */
const condensingWalls = (count: number): Trial => ({
  ...ten,
  walls: ten.walls.map((wall) => (isTreated(wall.wall) ? { ...wall, site: wall.wall } : wall)),
  climate: ten.walls
    .filter(({ wall }) => isTreated(wall))
    .flatMap(({ wall }, at) =>
      ['2024-03-10', '2024-04-20'].map(
        (time): ClimateReading => ({
          ...{
            time,
            place: wall,
            temperature_c: 15,
            relative_humidity_pct: 69,
            surface_c: at < count ? 5 : 15,
            origin,
          },
        }),
      ),
    ),
});

/** Ten visits before, a week apart; the changes in between, from the least to the most rain, have these ranks. */
const rainy = (ranks: readonly number[], trial = sound, weeks = 1): Trial => {
  const days = Array.from({ length: ranks.length + 1 }, (_, at) => addDays('2024-03-05', 7 * weeks * at));
  const moistureOn = (day: string) =>
    ranks.slice(0, days.indexOf(day)).reduce((sum, rank) => sum + 0.06 * (rank - 5), 0);
  const climate = days.map((day, at): ClimateReading => ({ time: day, place: 'yard', rain_mm: 3 * at, origin }));
  return { ...visited(days, (_, day) => moistureOn(day), trial), climate };
};
const rising = [1, 2, 3, 4, 5, 6, 7, 9, 8];
// By hand: 1 − 34/120 and 1 − 36/120, either side of the p-value of 0.03 with seven degrees of freedom.
const justBelow = [5, 2, 3, 4, 1, 6, 7, 9, 8];
const justAbove = [5, 2, 3, 4, 1, 7, 6, 9, 8];
const of = (ranks: readonly number[]) => spearman([1, 2, 3, 4, 5, 6, 7, 8, 9], ranks);

/** Three heights on every wall, each of them wetter than the one below by so much. */
const atHeights = (step: number, trial = sound): Trial => {
  const heights = [200, 800, 1400];
  const stations = trial.walls.flatMap(({ wall }) =>
    heights.map((height_mm): Station => ({ station: `h${height_mm}`, wall, height_mm, origin })),
  );
  const readings = trial.readings.flatMap((one) =>
    heights.map((height_mm, at) => {
      const own = 0.05 * Math.sin(numberOf(one.wall) * (at + 1) + (isTreated(one.wall) ? 1 : 4));
      const value = one.value.kind === 'measured' ? measured(one.value.value + step * (at - 1) + own) : one.value;
      return { ...one, station: `h${height_mm}`, value };
    }),
  );
  return { ...trial, stations, readings };
};

/** The margin out of reach: the trial finds no worthwhile effect. */
const nothingFound = planned({ margin: 6 });

export const waterSourceRows: readonly Row[] = rowsOf(
  'water-from-elsewhere',
  ['open', 'neither heights nor surface nor rain', sound],
  [
    'minor',
    'more than a tenth of the time below the dew point, with an effect',
    condensing(5),
    { beyond: 'condensing' },
  ],
  [
    'serious',
    'the same, where no worthwhile effect was found',
    condensing(5, nothingFound),
    { direction: 'away from the claim' },
  ],
  [
    'serious',
    'the same, where the plan names rising damp',
    condensing(5, planned({ against: 'rising-damp' }, nothingFound)),
  ],
  [
    'no entry',
    'the same, where the treatment is meant against condensation',
    condensing(5, planned({ against: 'condensation' })),
  ],
  ['minor', 'exactly a tenth, one wall of ten', condensingWalls(1), { value: 0.1 }],
  ['not found', 'less than a tenth of the time', condensing(4), { within: 'condensing' }],
  ['not found', 'never below the dew point', condensing(0), { value: 0 }],
  ['minor', 'wetter the more rain fell', rainy(rising), { value: of(rising).estimate }],
  [
    'minor',
    'with a p-value just below the limit',
    rainy(justBelow),
    { value: 1 - 34 / 120, pValue: of(justBelow).pValue, beyond: 'afterRain' },
  ],
  [
    'not found',
    'with one just above it',
    rainy(justAbove),
    { value: 1 - 36 / 120, pValue: of(justAbove).pValue, within: 'afterRain' },
  ],
  ['not found', 'drier the more rain fell', rainy(rising.toReversed())],
  ['open', 'too few visits with rain', rainy(rising.slice(0, 7))],
  ['open', 'what is better the higher it is has no wet head or rain', higher(atHeights(1))],
  ['minor', 'wettest at the head', atHeights(1)],
  ['serious', 'wettest at the head, where no worthwhile effect was found', atHeights(1, nothingFound)],
  ['not found', 'wettest at the foot', atHeights(-1)],
  ['not found', 'alike at all heights', atHeights(0)],
);
