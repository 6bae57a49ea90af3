import { binomial, quantile } from '../../statistics/index.js';
import type { Core, RowOrigin } from '../../trial/index.js';
import { inSteps } from './in-steps.js';

/** Two places whose numbers are the same. */
export interface SamePair {
  readonly one: RowOrigin;
  readonly other: RowOrigin;
}

export interface CopiedMasses {
  readonly cores: number;
  /** Pairs of cores with the same container, wet and dry mass, other than the same core weighed again. */
  readonly repeats: readonly SamePair[];
  /** How far near reaches, in steps of the balance. */
  readonly reach: number;
  /** Pairs as near as that in dry mass and in water, in containers of the same mass; the repeats are among them. */
  readonly near: number;
  /** Repeats expected among the near pairs. */
  readonly expected: number;
  /** Chance of so many repeats, or more, among the near pairs. */
  readonly pValue: number;
}

/** Near reaches 20 steps of the balance, or a tenth of the span of the masses where that is less: our convention. */
const widest = 20;
const shareOfSpan = 0.1;
/** A balance on which a tenth of the span is less than two steps tells nothing. */
const narrowest = 2;

/**
 * Whole mass triples that come twice. Near pairs show how densely the masses lie, whatever their distribution: of the pairs that agree
 * within 20 steps in dry mass and in water, one in 41 agrees exactly in each by chance, or as many as the pairs show that are
 * near in one of the two, so that rounded masses and a balance with coarse steps count by themselves.
 *
 * @returns nothing with fewer than two weighed cores, or where the masses span fewer than 20 steps
 */
export function copiedMasses(cores: readonly Core[]): CopiedMasses | undefined {
  const masses = massesInSteps(cores).sort((a, b) => a.dry - b.dry);
  const span = Math.min(spanOf(masses.map(({ dry }) => dry)), spanOf(masses.map(({ water }) => water)));
  const reach = Math.min(widest, Math.floor(shareOfSpan * span));
  if (masses.length < 2 || reach < narrowest) return undefined;
  let near = 0;
  const repeats: SamePair[] = [];
  const dry = nearPairs(
    masses,
    ({ dry }) => dry,
    reach,
    (one, other) => {
      if (other.container !== one.container || Math.abs(other.water - one.water) > reach) return;
      near += 1;
      if (other.dry === one.dry && other.water === one.water) repeats.push(placesOf(one.core, other.core));
    },
  );
  const byWater = masses.toSorted((a, b) => a.water - b.water);
  const water = nearPairs(byWater, (mass) => mass.water, reach);
  const width = 2 * reach + 1;
  const chance = tieChance(dry.ties, dry.near, width) * tieChance(water.ties, water.near, width);
  const pValue = repeats.length === 0 ? 1 : binomial(near, chance).upperTail(repeats.length - 1);
  return { cores: masses.length, repeats, reach, near, expected: near * chance, pValue };
}

/** Pairs within reach of each other in one mass, and those that agree in it; each near pair is shown to `see`. */
function nearPairs(
  sorted: readonly MassesInSteps[],
  of: (mass: MassesInSteps) => number,
  reach: number,
  see: (one: MassesInSteps, other: MassesInSteps) => void = () => {},
): { readonly near: number; readonly ties: number } {
  // Looked up for each pair, and pairs are many.
  const values = Float64Array.from(sorted, of);
  let [near, ties] = [0, 0];
  for (const [at, one] of sorted.entries()) {
    const own = of(one);
    for (let next = at + 1; next < sorted.length; next++) {
      const [other, value = own] = [sorted[next], values[next]];
      if (other === undefined || value - own > reach) break;
      if (isSameCore(one.core, other.core)) continue;
      near += 1;
      if (value === own) ties += 1;
      see(one, other);
    }
  }
  return { near, ties };
}

/** Of the middle nine tenths. */
function spanOf(values: readonly number[]): number {
  return values.length === 0 ? 0 : quantile(values, 0.95) - quantile(values, 0.05);
}

/** Never below what evenly spread numbers would have; one tie in one reach is taken as seen beforehand. */
export function tieChance(ties: number, near: number, width: number): number {
  return Math.max(1 / width, (ties + 1) / (near + width));
}

interface MassesInSteps {
  readonly core: Core;
  readonly container: number;
  readonly dry: number;
  readonly water: number;
}

function massesInSteps(cores: readonly Core[]): MassesInSteps[] {
  const weighed = cores.flatMap((core) => {
    const { container_g, wet_g, dry_g } = core;
    return wet_g === undefined || dry_g === undefined ? [] : [{ core, masses: [container_g, wet_g, dry_g] }];
  });
  const { steps } = inSteps(weighed.flatMap(({ masses }) => masses));
  return weighed.map(({ core }, at) => {
    const [container = 0, wet = 0, dry = 0] = steps.slice(3 * at, 3 * at + 3);
    return { core, container, dry: dry - container, water: wet - dry };
  });
}

/** A core that keeps its name is dried and weighed again, and keeps its dry mass. */
function isSameCore(one: Core, other: Core): boolean {
  return one.sample !== undefined && one.sample === other.sample && one.wall === other.wall;
}

function placesOf(one: Core, other: Core): SamePair {
  const isFirst = one.origin.file === other.origin.file ? one.origin.row < other.origin.row : true;
  return isFirst ? { one: one.origin, other: other.origin } : { one: other.origin, other: one.origin };
}
