import { dampFront, isMoistureError, type MoistureAtPoint } from '../../src/moisture/index.js';
import { isStatisticsError, normalDraws, randomStream } from '../../src/statistics/index.js';

/** What became of the profiles of one row. */
export interface FrontCounts {
  /** Profiles that were given a front. */
  readonly given: number;
  /** Of these, whose 95 % interval held the true one, an open side holding whatever lies beyond. */
  readonly held: number;
  /** Of these, whose readings do not limit the front to one side or to both. */
  readonly open: number;
  /** No clear fall, or a rise instead. */
  readonly noFall: number;
  /** A clear fall, but a front outside the heights, sharper than they are close, or a curve that cannot be fitted. */
  readonly notGiven: number;
}

export interface FrontRow extends FrontCounts {
  readonly layout: string;
  readonly scatter_pp: number;
  readonly wall: string;
  /** Absent where the wall has no front. */
  readonly front_mm?: number;
  readonly seed: number;
  /** In the first profiles, which a test can afford to make again. */
  readonly first: FrontCounts;
}

export interface FrontFile {
  readonly source: string;
  readonly profiles: number;
  readonly rows: readonly FrontRow[];
}

const firstProfiles = 3;

interface Layout {
  readonly layout: string;
  readonly heights_mm: readonly number[];
  /** What the depths of a height have more or less than the curve, percentage points; it counts as scatter. */
  readonly ofDepths_pp: readonly number[];
}

const five = [150, 400, 700, 1000, 1400];
const layouts: readonly Layout[] = [
  { layout: 'five heights, a place each', heights_mm: five, ofDepths_pp: [0] },
  { layout: 'five heights, two depths', heights_mm: five, ofDepths_pp: [-0.4, 0.4] },
  {
    layout: 'nine heights, a place each',
    heights_mm: five.flatMap((at) => [at, at + 125]).slice(0, 9),
    ofDepths_pp: [0],
  },
];

interface TrueWall {
  readonly wall: string;
  readonly front_mm?: number;
  readonly moistureAt: (height_mm: number) => number;
}

const stepAt =
  (front_mm: number, width_mm: number) =>
  (height_mm: number): number =>
    2 + 9 / (1 + Math.exp((height_mm - front_mm) / width_mm));

/** A front where `datasets/damp-cellar-walls` has its own, and walls that a front is harder to find in, or that have none. */
const walls: readonly TrueWall[] = [
  { wall: 'front half way up', front_mm: 750, moistureAt: stepAt(750, 110) },
  { wall: 'wide front half way up', front_mm: 750, moistureAt: stepAt(750, 220) },
  { wall: 'front near the lowest height', front_mm: 250, moistureAt: stepAt(250, 110) },
  { wall: 'front near the highest height', front_mm: 1300, moistureAt: stepAt(1300, 110) },
  { wall: 'front below the lowest height', front_mm: 0, moistureAt: stepAt(0, 110) },
  { wall: 'straight fall from 9 to 5 %', moistureAt: (height_mm) => 9 - (4 * (height_mm - 150)) / 1250 },
  { wall: 'level', moistureAt: () => 5 },
];

/** Percentage points, of a place's mean in one window: as in `datasets/damp-cellar-walls`, and rougher. */
const scatters_pp = [0.4, 1];

type Fate = 'held' | 'missed' | 'noFall' | 'notGiven';

/** A front that the wall does not have is never held. */
function fateOf(points: readonly MoistureAtPoint[], truth: number | undefined): { fate: Fate; isOpen: boolean } {
  try {
    const { interval, openTowards } = dampFront(points);
    const isBelow = truth !== undefined && (truth >= interval.lower || openTowards.includes('below'));
    const isAbove = truth !== undefined && (truth <= interval.upper || openTowards.includes('above'));
    return { fate: isBelow && isAbove ? 'held' : 'missed', isOpen: openTowards.length > 0 };
  } catch (error) {
    if (isStatisticsError(error)) return { fate: 'notGiven', isOpen: false };
    if (!isMoistureError(error)) throw error;
    const isNoFall = error.fault === 'reversed' || /clear fall|fall with height inside/.test(error.message);
    return { fate: isNoFall ? 'noFall' : 'notGiven', isOpen: false };
  }
}

/** Profiles of one wall as measured with one scatter. */
function countRow(layout: Layout, wall: TrueWall, scatter_pp: number, profiles: number, seed: number) {
  const stream = randomStream(seed);
  const counts = { given: 0, held: 0, open: 0, noFall: 0, notGiven: 0 };
  let first: FrontCounts = counts;
  for (let profile = 1; profile <= profiles; profile++) {
    const draws = normalDraws(stream, layout.heights_mm.length * layout.ofDepths_pp.length);
    const points = layout.heights_mm.flatMap((height_mm, at) =>
      layout.ofDepths_pp.map((ofDepth, depth) => ({
        height_mm,
        value_pct: wall.moistureAt(height_mm) + ofDepth + scatter_pp * draws[at * layout.ofDepths_pp.length + depth]!,
      })),
    );
    const { fate, isOpen } = fateOf(points, wall.front_mm);
    if (fate === 'held' || fate === 'missed') counts.given++;
    if (fate !== 'missed') counts[fate]++;
    if (isOpen) counts.open++;
    if (profile === firstProfiles) first = { ...counts };
  }
  return { ...counts, first };
}

/** Every layout, scatter and wall, each with a stream of its own. */
export function countFronts(profiles: number, seed: number): readonly FrontRow[] {
  const cases = layouts.flatMap((layout) =>
    scatters_pp.flatMap((scatter_pp) => walls.map((wall) => ({ layout, scatter_pp, wall }))),
  );
  return cases.map(({ layout, scatter_pp, wall }, at) => ({
    layout: layout.layout,
    scatter_pp,
    wall: wall.wall,
    ...(wall.front_mm === undefined ? {} : { front_mm: wall.front_mm }),
    seed: seed + at,
    ...countRow(layout, wall, scatter_pp, profiles, seed + at),
  }));
}

/** The same row again, for a test. */
export function firstOfRow({ layout, scatter_pp, wall, seed }: FrontRow): FrontCounts {
  const [place, truth] = [layouts.find((one) => one.layout === layout), walls.find((one) => one.wall === wall)];
  if (place === undefined || truth === undefined) throw new RangeError(`no row ${layout}, ${wall}`);
  return countRow(place, truth, scatter_pp, firstProfiles, seed).first;
}

const percent = (part: number, whole: number) => (whole === 0 ? '' : `${((100 * part) / whole).toFixed(1)} %`);

/** The committed table, from the committed counts. */
export function frontTable({ source, profiles, rows }: FrontFile): string {
  const lines = rows.map(({ layout, scatter_pp, wall, front_mm, given, held, open, noFall, notGiven }) => {
    const holds = front_mm === undefined ? '' : percent(held, given);
    const cells = [layout, scatter_pp, wall, percent(given, profiles), holds, percent(open, given)];
    return `| ${[...cells, percent(noFall, profiles), percent(notGiven, profiles)].join(' | ')} |`;
  });
  return `# How often is a damp front found, and does its interval hold it?

Made by ${source}; not edited by hand. ${profiles.toLocaleString('en-GB')} profiles a row, from the walls written out in \`front-trials.ts\`: moisture falls from
11 % to 2 % about the front, and normal scatter of the stated size (percentage points, of one place) lies on it. "Held" is of the profiles that were
given a front, an open side holding whatever lies beyond. "Open": the readings limit the front to one side at most. "No fall": the test for a
fall did not pass. "Not given": there is a fall, but a front outside the heights, sharper than they are close, or a curve that cannot be fitted.

| places | scatter | wall | front given | held | open | no fall | not given |
| --- | ---: | --- | ---: | ---: | ---: | ---: | ---: |
${lines.join('\n')}
`;
}
