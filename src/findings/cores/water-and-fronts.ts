import type { PlainReason } from '../../analysis/index.js';
import {
  dampFront,
  dampFrontByOrder,
  isMoistureError,
  type MoistureAtPoint,
  type MoistureFault,
  type StoredWater,
  storedWater,
} from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { isStatisticsError, mean } from '../../statistics/index.js';
import type { FrontsOfArm, LeftOutHere, WaterOfArm } from './cores-part.js';
import { meanOfWalls } from './mean-of-walls.js';
import type { WindowName } from './placed-cores.js';
import type { PlaceOfWall, PlacesOfWall } from './places-of-walls.js';

function eachWindow<Value>(valueIn: (window: WindowName) => Value): readonly [Value, Value] {
  return [valueIn('before'), valueIn('after')];
}

function pointOf(place: PlaceOfWall, window: WindowName): MoistureAtPoint {
  return { ...place, value_pct: place[`${window}_pct`] };
}

/** Water a square metre by arm, of the walls that state thickness and density and were cored at two heights at least. */
export function waterOfArm(walls: readonly PlacesOfWall[], level: number): WaterOfArm {
  const leftOut: PlainReason[] = [];
  const stored = walls.flatMap(({ wall: { thickness_mm, dryDensity_kg_m3 }, places }) => {
    if (thickness_mm === undefined || dryDensity_kg_m3 === undefined) {
      leftOut.push('no-thickness-or-density');
      return [];
    }
    try {
      const [before, after] = eachWindow((window) => {
        const points = places.map((place) => ({
          ...pointOf(place, window),
          standardUncertainty_pp: place[`${window}_pp`],
        }));
        return storedWater(points, { thickness_mm, dryDensity_kg_m3 });
      });
      const ofWeighing = Math.max(before.standardUncertainty, after.standardUncertainty);
      return [{ before: before.value, after: after.value, ofWeighing, beyond: before }];
    } catch (error) {
      if (!isMoistureError(error)) throw error;
      leftOut.push(waterRefused[error.fault] ?? 'places-unlike-wall');
      return [];
    }
  });
  return {
    ...meansOf(stored, level),
    ...(stored.length === 0 ? {} : { ofWeighing: Math.max(...stored.map(({ ofWeighing }) => ofWeighing)) }),
    ...(stored.length === 0 ? {} : { beyond: beyondOf(stored.map(({ beyond }) => beyond)) }),
    leftOut: counted(leftOut),
  };
}

function beyondOf(walls: readonly StoredWater[]): NonNullable<WaterOfArm['beyond']> {
  return {
    share: mean(walls.map(({ beyondShare }) => beyondShare)),
    water_kg_m2: mean(walls.map(({ beyond_kg_m2 }) => beyond_kg_m2)),
  };
}

const waterRefused: Partial<Record<MoistureFault, PlainReason>> = {
  'too-few': 'too-few-heights',
  'out-of-range': 'depth-beyond-thickness',
  'out-of-order': 'depth-at-some-cores',
};

/** Fewer heights than this show no front. */
const heightsForFront = 5;

/** Heights of the damp front, wall by wall; a wall counts where its places have heights enough. */
export function frontsOfArm(walls: readonly PlacesOfWall[], level: number): FrontsOfArm {
  const enough = walls.filter(
    ({ places }) => new Set(places.map(({ height_mm }) => height_mm)).size >= heightsForFront,
  );
  const leftOut: Record<WindowName, PlainReason[]> = { before: [], after: [] };
  const open: Record<WindowName, number> = { before: 0, after: 0 };
  const byCurve = enough.map(({ places }) =>
    eachWindow((window) => {
      const front = frontOf(places.map((place) => pointOf(place, window)));
      if (front.kind === 'none') leftOut[window].push(front.because);
      else if (front.isOpen) open[window]++;
      return front.kind === 'none' ? undefined : front.height_mm;
    }),
  );
  const byOrder = enough.map(({ places }) =>
    eachWindow((window) => heightByOrder(places.map((place) => pointOf(place, window)))),
  );
  return {
    walls: enough.length,
    ...frontMeans(byCurve, level),
    open,
    byOrder: frontMeans(byOrder, level),
    notFound: { before: counted(leftOut.before), after: counted(leftOut.after) },
  };
}

type Heights = readonly [before: number | undefined, after: number | undefined];

function frontMeans(walls: readonly Heights[], level: number): FrontsOfArm['byOrder'] {
  const both = walls.flatMap(([before, after]) =>
    before === undefined || after === undefined ? [] : [after - before],
  );
  const before = meanOfWalls(
    walls.flatMap((wall) => wall[0] ?? []),
    level,
  );
  const after = meanOfWalls(
    walls.flatMap((wall) => wall[1] ?? []),
    level,
  );
  const change = meanOfWalls(both, level);
  return {
    ...present({ before, after, change }),
  };
}

type FoundFront =
  | { readonly kind: 'found'; readonly height_mm: number; readonly isOpen: boolean }
  | { readonly kind: 'none'; readonly because: PlainReason };

function frontOf(points: readonly MoistureAtPoint[]): FoundFront {
  try {
    const { height_mm, openTowards } = dampFront(points);
    return { kind: 'found', height_mm, isOpen: openTowards.length > 0 };
  } catch (error) {
    // There is a fall, and yet no such curve: another finding than no fall.
    if (isStatisticsError(error)) return { kind: 'none', because: 'front-not-fitted' };
    if (!isMoistureError(error)) throw error;
    return { kind: 'none', because: frontRefused[error.fault] ?? 'front-not-computed' };
  }
}

function heightByOrder(points: readonly MoistureAtPoint[]): number | undefined {
  try {
    return dampFrontByOrder(points).height_mm;
  } catch (error) {
    if (isMoistureError(error)) return undefined;
    throw error;
  }
}

const frontRefused: Partial<Record<MoistureFault, PlainReason>> = {
  'no-front': 'front-not-clear',
  reversed: 'front-not-falling',
  'too-few': 'front-too-sharp',
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

function counted(codes: readonly PlainReason[]): readonly LeftOutHere[] {
  return [...new Set(codes)].map((code) => ({ reason: { code }, walls: codes.filter((one) => one === code).length }));
}
