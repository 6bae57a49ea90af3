import type { ClimateReading, Trial } from '../../../../src/index.js';
import { addDays } from '../../../../src/plain/days.js';
import { madeTrial, wallsWithChanges } from '../../../helpers/made-trial.js';
import { type Row, rowsOf } from './row.js';
import {
  amountOf,
  byMeter,
  cored,
  higher,
  isAfter,
  isTreated,
  lost,
  measured,
  numberOf,
  planned,
  reading,
  sound,
  ten,
  treatedChanges,
  unplanned,
  untreatedChanges,
  walling,
  walls,
} from './trials.js';

const nothingAfter = madeTrial(
  lost(
    walls,
    walls.map(({ wall }) => wall),
  ),
);

/** Two readings in either window, at one temperature: what lacks to saturation is in proportion to 100 less the humidity. */
const air = (place: string, before: number, after: number): ClimateReading[] =>
  (
    [
      ['2024-04-01', before],
      ['2024-05-01', before],
      ['2025-04-01', after],
      ['2025-05-01', after],
    ] as const
  ).map(([time, relative_humidity_pct]) => ({
    ...{ time, place, temperature_c: 15, relative_humidity_pct },
    origin: { file: 'climate.csv', row: 2 },
  }));
const with_ = (climate: readonly ClimateReading[], trial: Trial): Trial => ({ ...trial, climate });

/** Each arm in a room of its own kind: every wall a room. */
const rooms = walling((wall) => ({ ...wall, site: `room ${wall.wall}` }));
const beside = (treated: number, untreated: number, trial = rooms) =>
  with_(
    trial.walls.flatMap(({ wall, site = '' }) => air(site, 60, isTreated(wall) ? treated : untreated)),
    trial,
  );
const noSites = walling(({ site: _, ...wall }) => wall);
/** The first so many treated walls of ten in a shed of their own. */
const inShed = (count: number) =>
  walling((wall) => (isTreated(wall.wall) && numberOf(wall.wall) <= count ? { ...wall, site: 'shed' } : wall), ten);

/** The air beside the first so many walls of each arm. */
const besideSome = (count: number, of: number) => {
  const changes = Array.from({ length: of }, (_, at) => 0.1 * Math.sin(2.4 * at));
  const trial = walling(
    (wall) => ({ ...wall, site: `room ${wall.wall}` }),
    madeTrial(wallsWithChanges(changes, changes)),
  );
  const recorded = trial.walls.filter(({ wall }) => numberOf(wall) <= count);
  return with_(
    recorded.flatMap(({ site = '' }) => air(site, 60, 60)),
    trial,
  );
};

/** So many of the treated walls hold less than the margin of 2. */
const drier = (count: number, of: number, changes: { readonly treated: number; readonly untreated: number }) =>
  madeTrial(
    wallsWithChanges(
      Array.from({ length: of }, (_, at) => changes.treated + 0.1 * Math.sin(2.4 * at)),
      Array.from({ length: of }, (_, at) => changes.untreated + 0.1 * Math.sin(2.4 * at + 1)),
    ).map((wall) => {
      const lower = isTreated(wall.wall) && numberOf(wall.wall) <= count ? 1.99 - (wall.before ?? 0) : 0;
      return { ...wall, before: (wall.before ?? 0) + lower, after: (wall.after ?? 0) + lower };
    }),
  );
const dried = { treated: -3, untreated: 0 };
const nothing = { treated: -0.1, untreated: 0 };
/** Cores of 8, 8.25, … points, of which the air of the chamber keeps so many. */
const heldByAir = (points: number) => {
  const trial = cored([]);
  return { ...trial, cores: trial.cores.map((core) => ({ ...core, humid_g: 100 + points })) };
};

/** Walls of 1.2 m, read on the 20 May before and so many days after it. */
const readIn = (days: number, trial = sound) =>
  planned(
    { windows: { before: { from: '2024-05-01', to: '2024-05-20' }, after: { from: '2024-05-22', to: '2024-12-31' } } },
    reading(
      (one) => ({ ...one, date: isAfter(one) ? addDays('2024-05-20', days) : '2024-05-20' }),
      walling((wall) => ({ ...wall, treatedOn: '2024-05-21', thickness_mm: 1200 }), trial),
    ),
  );
const meanFall = -treatedChanges.reduce((sum, one) => sum + one, 0) / 6;

export const airAndWaterRows: readonly Row[] = [
  ...rowsOf(
    'air-not-recorded',
    ['not found', 'all under one roof', sound],
    ['not found', '18 of 20 walls under one roof with the other arm', inShed(2), { beyond: 'underOneRoof' }],
    ['silent', '17 of 20, and no air on record', inShed(3), { restsOn: ['air'], within: 'underOneRoof' }],
    ['not found', 'beside walls of both arms', beside(60, 60)],
    ['not found', 'beside 2 of 8 walls of each arm', besideSome(2, 8), { beyond: 'airOfWalls' }],
    ['silent', 'beside 2 of 9 walls of each arm', besideSome(2, 9), { restsOn: ['air'], within: 'airOfWalls' }],
    [
      'silent',
      'beside walls of one arm',
      with_(
        beside(60, 60).climate.filter(({ place }) => place.includes('T')),
        rooms,
      ),
      { restsOn: ['air'] },
    ],
    ['silent', 'of a yard', with_(air('yard', 60, 60), rooms), { restsOn: ['air'], direction: 'either way' }],
    [
      'silent',
      'in one window',
      with_(
        beside(60, 60).climate.filter(({ time }) => time < '2025'),
        rooms,
      ),
      { restsOn: ['air'] },
    ],
    // The record cannot be placed, and that is the silence on the sites.
    ['silent', 'of a yard, and no sites', with_(air('yard', 60, 60), noSites), { restsOn: ['air', 'walls'] }],
    ['silent', 'neither air nor sites', noSites, { restsOn: ['air'] }],
    ['no entry', 'no wall has a change', nothingAfter],
  ),
  ...rowsOf(
    'air-unlike',
    ['not found', 'the same air', beside(60, 60), { value: 1 }],
    ['not found', 'all of it drier', beside(40, 40), { value: 1 }],
    // 40 points lack before: 1.25 and 0.8 times that are 50 and 32.
    [
      'not found',
      '1.248 times as dry beside treated walls',
      beside(50.08, 60),
      { value: 1.248, within: 'airRatioMost' },
    ],
    [
      'serious',
      '1.252 times as dry',
      beside(49.92, 60),
      { value: 1.252, direction: 'towards the claim', beyond: 'airRatioMost' },
    ],
    ['not found', '0.802 times as dry', beside(67.92, 60), { value: 0.802, within: 'airRatioLeast' }],
    [
      'serious',
      '0.798 times as dry',
      beside(68.08, 60),
      { value: 0.798, direction: 'away from the claim', beyond: 'airRatioLeast' },
    ],
    [
      'serious',
      'drier beside treated walls where higher is better',
      beside(40, 60, higher(rooms)),
      { direction: 'away from the claim' },
    ],
    ['serious', 'damper beside them there', beside(80, 60, higher(rooms)), { direction: 'towards the claim' }],
    ['no entry', 'no air on record', sound],
  ),
  ...rowsOf(
    'walls-too-dry',
    [
      'minor',
      '2 of 8, and worthwhile for all that',
      drier(2, 8, dried),
      { value: 0.25, beyond: 'tooDryShare', direction: 'away from the claim' },
    ],
    ['not found', '2 of 9', drier(2, 9, dried), { value: 2 / 9, within: 'tooDryShare' }],
    ['serious', '2 of 8, and nothing worthwhile found', drier(2, 8, nothing), { value: 0.25 }],
    ['not found', '2 of 9, and nothing worthwhile found', drier(2, 9, nothing), { value: 2 / 9 }],
    ['not found', '6.2 points of 8, 8.25, … kept by the air', heldByAir(6.2), { value: 1 / 6 }],
    ['minor', '6.3 points kept by it', heldByAir(6.3), { value: 2 / 6 }],
    ['no entry', 'no margin', unplanned('margin')],
    ['no entry', 'higher is better', higher(sound)],
    ['no entry', 'an index', byMeter()],
  ),
  ...rowsOf(
    'larger-than-ceiling',
    // 3 mm a day off two faces, where no air is on record; 20.4 kg/m² for each percent of 1.2 m of 1700 kg/m³.
    ['serious', 'in 24 days', readIn(24), { value: (20.4 * meanFall) / 24, direction: 'towards the claim' }],
    ['not found', 'in 30 days', readIn(30), { value: (20.4 * meanFall) / 30 }],
    ['not found', 'in a year', sound],
    // One wall that fell by much is its own scatter; the arm as a whole did not.
    [
      'not found',
      'one wall of six in 24 days',
      readIn(
        24,
        reading((one) =>
          isAfter(one) && isTreated(one.wall) && numberOf(one.wall) > 1
            ? { ...one, value: measured(amountOf(one) + 3) }
            : one,
        ),
      ),
    ],
    [
      'not found',
      'untreated walls of no fall in 24 days',
      readIn(24, madeTrial(wallsWithChanges(untreatedChanges, untreatedChanges))),
    ],
    ['open', 'no thickness', walling(({ thickness_mm: _, ...wall }) => wall)],
    ['open', 'higher is better', higher(sound)],
    ['open', 'an index', planned({ outcome: { ...sound.protocol.outcome, unit: 'digits' } })],
    ['open', 'no windows', unplanned('windows')],
  ),
];
