import type { Reason, Side, WallChange } from '../../analysis/index.js';
import { orInstead } from '../../plain/unless-refused.js';
import {
  contrast,
  covariate,
  designMatrix,
  intercept,
  isStatisticsError,
  leastSquares,
  mean,
  type TEstimate,
} from '../../statistics/index.js';
import type { Injection, Trial } from '../../trial/index.js';

/** What one wall was given, over all its injections. */
export interface InjectedWall {
  readonly wall: string;
  readonly side: Side;
  readonly first: string;
  readonly last: string;
  readonly litres_per_m: number;
  /** The largest that its rows state; absent where none does. */
  readonly plannedLitres_per_m?: number;
  readonly lots: readonly string[];
  /** Means over its injections. */
  readonly spacing_mm?: number;
  readonly depth_mm?: number;
  readonly moisture_pct?: number;
}

/**
 * By how much more a treated wall changed for each further litre per metre: least squares of change on dose, walls as the units. Doses
 * are seldom randomised, and a wall is often given more because it is wetter, thicker or more open: the slope is no effect.
 */
type DoseResponse =
  | ({ readonly kind: 'estimated'; readonly walls: number } & Omit<TEstimate, 'statistic'>)
  | { readonly kind: 'not-estimated'; readonly reason: Reason };

export interface InjectionOfTrial {
  /** Compared walls with an injection on record, in the order of `walls.csv`. */
  readonly walls: readonly InjectedWall[];
  /** Treated walls of the comparison without one. */
  readonly notOnRecord: readonly string[];
  /** Lots of the treated walls, in order of name. */
  readonly lots: readonly string[];
  /** Of the treated walls. */
  readonly doses: { readonly least: number; readonly mean: number; readonly most: number };
  /** The smallest share of its planned dose that a treated wall was given; absent where no wall has a planned dose. */
  readonly leastShare?: number;
  readonly response: DoseResponse;
}

/**
 * What was injected into the walls, and whether treated walls that were given more changed more.
 *
 * @param walls with their change
 * @param areUnits whether each wall counts by itself
 * @returns nothing where no treated wall of the comparison has an injection on record
 */
export function injectionOfTrial(
  { injections = [], walls: planned, protocol }: Trial,
  sides: ReadonlyMap<string, Side>,
  { walls, areUnits }: { readonly walls: readonly WallChange[]; readonly areUnits: boolean },
): InjectionOfTrial | undefined {
  const injected = planned.flatMap(({ wall }) => {
    const [side, own] = [sides.get(wall), injections.filter((one) => one.wall === wall)];
    return side === undefined || own.length === 0 ? [] : [ofWall(wall, side, own)];
  });
  const treated = injected.filter(({ side }) => side === 'treated');
  if (treated.length === 0) return undefined;
  const doses = treated.map(({ litres_per_m }) => litres_per_m);
  const shares = treated.flatMap(({ litres_per_m, plannedLitres_per_m }) =>
    plannedLitres_per_m === undefined ? [] : [litres_per_m / plannedLitres_per_m],
  );
  const known = new Set(treated.map(({ wall }) => wall));
  return {
    walls: injected,
    notOnRecord: [...sides].flatMap(([wall, side]) => (side === 'treated' && !known.has(wall) ? [wall] : [])),
    lots: [...new Set(treated.flatMap(({ lots }) => lots))].sort(),
    doses: { least: Math.min(...doses), mean: mean(doses), most: Math.max(...doses) },
    ...(shares.length === 0 ? {} : { leastShare: Math.min(...shares) }),
    response: areUnits
      ? doseResponse(treated, walls, protocol.confidence)
      : { kind: 'not-estimated', reason: { code: 'several-walls-as-one' } },
  };
}

function ofWall(wall: string, side: Side, own: readonly Injection[]): InjectedWall {
  const days = own.map(({ date }) => date).sort();
  const meanOf = (key: 'spacing_mm' | 'depth_mm' | 'moisture_pct') => {
    const values = own.flatMap((one) => one[key] ?? []);
    return values.length === 0 ? {} : { [key]: mean(values) };
  };
  const asked = own.flatMap(({ plannedLitres_per_m }) => plannedLitres_per_m ?? []);
  return {
    ...{ wall, side, first: days[0] ?? '', last: days.at(-1) ?? '' },
    litres_per_m: own.reduce((sum, { litres_per_m }) => sum + litres_per_m, 0),
    ...(asked.length === 0 ? {} : { plannedLitres_per_m: Math.max(...asked) }),
    lots: [...new Set(own.flatMap(({ lot }) => lot ?? []))].sort(),
    ...meanOf('spacing_mm'),
    ...meanOf('depth_mm'),
    ...meanOf('moisture_pct'),
  };
}

/** Two lie on any line. */
const fewestDoses = 3;

function doseResponse(treated: readonly InjectedWall[], walls: readonly WallChange[], level: number): DoseResponse {
  const changes = new Map(walls.map(({ wall, change }) => [wall, change]));
  const points = treated.flatMap(({ wall, litres_per_m: dose }) => {
    const change = changes.get(wall);
    return change === undefined ? [] : [{ dose, change }];
  });
  const reason = whyNot(points);
  if (reason !== undefined) return { kind: 'not-estimated', reason };
  return orInstead(
    isStatisticsError,
    () => {
      const dose = covariate(
        'dose',
        points.map((point) => point.dose),
      );
      const fit = leastSquares(
        designMatrix([intercept(), dose]),
        points.map(({ change }) => change),
      );
      const { statistic: _, ...slope } = contrast(fit, { dose: 1 }, { level });
      return { kind: 'estimated', walls: points.length, ...slope };
    },
    () => ({
      kind: 'not-estimated',
      reason: { code: 'doses-on-a-line' },
    }),
  );
}

function whyNot(points: readonly { readonly dose: number }[]): Reason | undefined {
  if (points.length < fewestDoses) return { code: 'too-few-doses', walls: points.length, needed: fewestDoses };
  return new Set(points.map(({ dose }) => dose)).size === 1 ? { code: 'doses-alike' } : undefined;
}
