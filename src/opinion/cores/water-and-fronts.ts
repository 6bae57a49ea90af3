import { dampFront, isMoistureError, type MoistureFault, storedWater } from '../../moisture/index.js';
import { isStatisticsError } from '../../statistics/index.js';
import type { FrontsOfArm, LeftOutHere, WaterOfArm } from './cores-part.js';
import { groupBy } from './group-by.js';
import { meanOfWalls } from './mean-of-walls.js';
import type { WindowName } from './placed-cores.js';
import type { PlacesOfWall } from './places-of-walls.js';

const windows: readonly WindowName[] = ['before', 'after'];

/** Water a square metre by arm, of the walls that state thickness and density and were cored at two heights at least. */
export function waterOfArm(walls: readonly PlacesOfWall[], level: number): WaterOfArm {
  const leftOut: string[] = [];
  const stored = walls.flatMap(({ wall: { thickness_mm, dryDensity_kg_m3 }, places }) => {
    if (thickness_mm === undefined || dryDensity_kg_m3 === undefined) {
      leftOut.push('no thickness or no density stated');
      return [];
    }
    try {
      const [before = 0, after = 0] = windows.map((window) => {
        const points = places.map((place) => ({
          ...place,
          value_pct: place[`${window}_pct`],
          standardUncertainty_pp: place[`${window}_pp`],
        }));
        return storedWater(points, { thickness_mm, dryDensity_kg_m3 }).value;
      });
      return [{ before, after }];
    } catch (error) {
      if (!isMoistureError(error)) throw error;
      leftOut.push(waterRefused[error.fault] ?? 'places that do not fit the wall');
      return [];
    }
  });
  return {
    ...meansOf(stored, level),
    leftOut: counted(leftOut),
  };
}

const waterRefused: Partial<Record<MoistureFault, string>> = {
  'too-few': 'fewer than two heights cored in both windows',
  'out-of-range': 'a depth beyond the thickness',
  'out-of-order': 'a height cored both with and without a depth',
};

/** Fewer heights than this show no front. */
const heightsForFront = 5;

/** Heights of the damp front, wall by wall; a wall counts where its places have heights enough. */
export function frontsOfArm(walls: readonly PlacesOfWall[], level: number): FrontsOfArm {
  const enough = walls.filter(
    ({ places }) => new Set(places.map(({ height_mm }) => height_mm)).size >= heightsForFront,
  );
  const leftOut: Record<WindowName, string[]> = { before: [], after: [] };
  const fronts = enough.map(({ places }) => {
    const [before, after] = windows.map((window) => {
      const front = frontOf(places.map((place) => ({ ...place, value_pct: place[`${window}_pct`] })));
      if (typeof front === 'number') return front;
      leftOut[window].push(front);
      return undefined;
    });
    return { before, after };
  });
  const found = (window: WindowName) => fronts.flatMap((front) => front[window] ?? []);
  const both = fronts.flatMap(({ before, after }) =>
    before === undefined || after === undefined ? [] : [after - before],
  );
  const [before, after, change] = [found('before'), found('after'), both].map((each) => meanOfWalls(each, level));
  return {
    walls: enough.length,
    ...(before === undefined ? {} : { before }),
    ...(after === undefined ? {} : { after }),
    ...(change === undefined ? {} : { change }),
    notFound: { before: counted(leftOut.before), after: counted(leftOut.after) },
  };
}

/** The height in mm, or in words why there is none. */
function frontOf(points: Parameters<typeof dampFront>[0]): number | string {
  try {
    return dampFront(points).height_mm;
  } catch (error) {
    if (isStatisticsError(error)) return 'the curve could not be followed';
    if (!isMoistureError(error)) throw error;
    return frontRefused[error.fault] ?? 'no front could be computed';
  }
}

const frontRefused: Partial<Record<MoistureFault, string>> = {
  'no-front': 'no clear front inside the measured heights',
  reversed: 'moisture does not fall with height',
  'too-few': 'a front sharper than the heights are close',
};

function meansOf(values: readonly { readonly before: number; readonly after: number }[], level: number) {
  const of = (valueIn: (each: { readonly before: number; readonly after: number }) => number) =>
    meanOfWalls(values.map(valueIn), level);
  const [before, after, change] = [
    of((each) => each.before),
    of((each) => each.after),
    of((each) => each.after - each.before),
  ];
  if (before === undefined || after === undefined || change === undefined) return {};
  return { means: { before, after, change } };
}

function counted(reasons: readonly string[]): readonly LeftOutHere[] {
  return [...groupBy(reasons, (reason) => reason)].map(([reason, each]) => ({ reason, walls: each.length }));
}
