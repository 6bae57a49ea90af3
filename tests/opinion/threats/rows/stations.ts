import type { Station, Trial } from '../../../../src/index.js';
import { madeTrial } from '../../../helpers/made-trial.js';
import { type Row, rowsOf } from './row.js';
import {
  amountOf,
  isAfter,
  isTreated,
  lost,
  measured,
  numberOf,
  reading,
  sound,
  ten,
  walls,
  wallsInArms,
} from './trials.js';

const all = walls.map(({ wall }) => wall);

interface Place {
  readonly name: string;
  readonly height_mm?: number;
  readonly depth_mm?: number;
  /** How much more the walls of the treated arm change here; 0 unless told. */
  readonly more?: number;
}

/** Every wall read at the same places. */
function placed(places: readonly Place[], trial: Trial): Trial {
  const origin = { file: 'stations.csv', row: 2 };
  const stations = trial.walls.flatMap(({ wall }) =>
    places.map(({ name, more: _, ...place }): Station => ({ station: name, wall, ...place, origin })),
  );
  const readings = trial.readings.flatMap((one) =>
    places.map(({ name, more = 0 }, at) => {
      const shift = isAfter(one) && isTreated(one.wall) ? more : 0;
      // Some scatter of places, or the walls would be too much alike.
      const own = 0.3 * Math.sin(1.7 * at + numberOf(one.wall) + (isAfter(one) ? 1 : 0));
      return { ...one, station: name, value: measured(amountOf(one) + shift + own) };
    }),
  );
  return { ...trial, stations, readings };
}

/** So many of them. */
const nameless = (count: number) => Array.from({ length: count }, (_, at): Place => ({ name: `s${at}` }));

interface Lost {
  readonly side?: 'treated' | 'untreated';
  readonly isMeant?: (station: string) => boolean;
  readonly at?: 'before' | 'after';
}

/** Without the after readings of the first so many stations that are meant, wall after wall. */
function without(
  count: number,
  trial: Trial,
  { side = 'treated', isMeant = () => true, at = 'after' }: Lost = {},
): Trial {
  const own = trial.readings.filter(
    (one) => isAfter(one) === (at === 'after') && isTreated(one.wall) === (side === 'treated') && isMeant(one.station),
  );
  // The first place of every wall, then the second: no wall is lost, and several lose a station.
  const order = own.toSorted((one, other) => (one.station < other.station ? -1 : one.station > other.station ? 1 : 0));
  const gone = new Set(order.slice(0, count));
  return { ...trial, readings: trial.readings.filter((one) => !gone.has(one)) };
}

const six = placed(nameless(6), ten);
const five = placed(nameless(5), sound);

const threeHeights = placed(
  [
    { name: 'low', height_mm: 300 },
    { name: 'middle', height_mm: 700 },
    { name: 'top', height_mm: 1200 },
  ],
  sound,
);
const twoDepths = placed(
  [
    { name: 'inner', depth_mm: 160 },
    { name: 'outer', depth_mm: 60 },
  ],
  sound,
);

/** Five stations at the top that show all of the treatment, and one low, which shows so much less of it. */
const mostlyAtTop = (less: number) =>
  placed(
    [
      { name: 'low', height_mm: 300, more: less },
      ...Array.from({ length: 5 }, (_, at) => ({ name: `top ${at}`, height_mm: 1200 })),
    ],
    ten,
  );
const isTop = (station: string) => station.startsWith('top');

/** Walls of one arm, or of both, whose stations have other names after. */
const renamed = (isMeant: (wall: string) => boolean) =>
  reading((one) => (isAfter(one) && isMeant(one.wall) ? { ...one, station: 'b' } : one));

export const stationRows: readonly Row[] = [
  ...rowsOf(
    'stations-lost',
    ['not found', 'none', five, { value: 0 }],
    ['not found', '6 of 60, and none of the other arm', without(6, six), { value: 0.1, within: 'placesLostApart' }],
    ['minor', '7 of 60', without(7, six), { value: 7 / 60, beyond: 'placesLostApart' }],
    ['minor', '7 of 60 of the untreated walls', without(7, six, { side: 'untreated' }), { value: -7 / 60 }],
    ['not found', '7 of 60 in either arm', without(7, without(7, six), { side: 'untreated' }), { value: 0 }],
    ['minor', '15 of 60', without(15, six), { value: 0.25, within: 'placesLostFarApart' }],
    ['serious', '16 of 60', without(16, six), { value: 16 / 60, beyond: 'placesLostFarApart' }],
    // Fisher's exact test by hand: twice C(30, 5) over C(60, 5), and twice C(30, 6) over C(60, 6).
    ['not found', '5 of 30', without(5, five), { value: 5 / 30, pValue: (2 * 142_506) / 5_461_512, within: 'alarm' }],
    ['minor', '6 of 30', without(6, five), { value: 6 / 30, pValue: (2 * 593_775) / 50_063_860, beyond: 'alarm' }],
    [
      'not found',
      '9 of 60 in one wall, whose accident that is',
      {
        ...placed(nameless(10), sound),
        readings: placed(nameless(10), sound).readings.filter(
          (one) => !(isAfter(one) && one.wall === 'T1' && one.station !== 's0'),
        ),
      },
      { value: 9 / 60 },
    ],
    [
      'serious',
      'all six at one height',
      without(6, threeHeights, { isMeant: (one) => one === 'top' }),
      { value: 1, pValue: 2 / 924 },
    ],
    [
      'serious',
      'all six at one depth',
      without(6, twoDepths, { isMeant: (one) => one === 'outer' }),
      { value: 1, pValue: 2 / 924 },
    ],
    [
      'minor',
      '8 of 50 at a height, and the others say the same',
      without(8, mostlyAtTop(0), { isMeant: isTop }),
      { value: 8 / 50 },
    ],
    [
      'serious',
      '8 of 50 at a height, and the others say something else',
      without(8, mostlyAtTop(4), { isMeant: isTop }),
      { value: 8 / 50 },
    ],
    ['not found', 'not read before either', without(7, six, { at: 'before' }), { value: 0 }],
    ['no entry', 'nothing was read before', madeTrial(lost(walls, all, 'before'))],
    ['no entry', 'nothing was read after', madeTrial(lost(walls, all))],
  ),
  ...rowsOf(
    'stations-renamed',
    ['not found', 'the same names', sound],
    ['serious', 'one wall of twelve', renamed((wall) => wall === 'T1'), { value: 1 }],
    ['serious', 'all treated walls', renamed(isTreated), { value: 6 }],
    ['serious', 'all walls but one', renamed((wall) => wall !== 'U6'), { value: 11 }],
    ['minor', 'all walls', renamed(() => true), { value: 12 }],
    [
      'not found',
      'one station of a wall that keeps another',
      reading((one) => (isAfter(one) && one.station === 's4' ? { ...one, station: 'b' } : one), five),
    ],
    ['no entry', 'nothing was read after', madeTrial(lost(walls, all))],
    ['not found', 'many walls', madeTrial(wallsInArms(10))],
  ),
];
