import { groupBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { type RandomStream, randomStream, shuffled } from '../../statistics/index.js';
import { PlanningError } from '../planning-error.js';

/** A wall that waits for its arm. */
export interface WallToAllocate {
  readonly wall: string;
  /** The pair or block in which it is drawn, or the house where whole houses are. */
  readonly group?: string;
  /** What it was read at before, in the unit of the outcome; every wall needs one where a constraint is to be met. */
  readonly before?: number;
}

/** How often each arm is drawn: among all walls, in each pair or block, or among houses. */
export interface ArmCount {
  readonly arm: string;
  readonly count: number;
  /** On which side of the comparison it stands. */
  readonly side: 'treated' | 'untreated';
}

export interface AllocationPlan {
  readonly kind: 'complete' | 'pairs' | 'blocks' | 'houses';
  readonly walls: readonly WallToAllocate[];
  readonly arms: readonly ArmCount[];
  /** A draw whose sides differ by more in their before means is drawn again; inside blocks by their differences. */
  readonly mostBeforeDifference?: number;
}

export interface WallAllocation {
  /** In the order in which the walls were given. */
  readonly walls: readonly { readonly wall: string; readonly arm: string; readonly group?: string }[];
  readonly seed: number;
  /** How many draws it took until the constraint was met; 1 without one. */
  readonly draws: number;
  /** Treated less untreated walls before, as the constraint counts it; absent without before values. */
  readonly beforeDifference?: number;
}

/** Our convention: a constraint that one draw in ten thousand does not meet leaves hardly anything to chance. */
const mostDraws = 10_000;

/**
 * Allocates walls to arms by chance, from a seed: every allocation with these counts is equally likely, under a constraint every one
 * that meets it (rerandomisation; Morgan and Rubin 2012, Ann. Stat. 40:1263–1282).
 *
 * @throws PlanningError `out-of-range` where counts and walls do not agree; `too-few` for fewer walls than arms and for a pair or block
 *   with other than the walls that its arms need; `not-possible` where no draw meets the constraint
 * @example
 * const arms = [{ arm: 'device', count: 2, side: 'treated' }, { arm: 'sham', count: 2, side: 'untreated' }];
 * const four = ['W01', 'W02', 'W03', 'W04'].map((wall) => ({ wall }));
 * allocateWalls({ kind: 'complete', walls: four, arms }, 20240301).walls.filter(({ arm }) => arm === 'device').length // 2
 */
export function allocateWalls(plan: AllocationPlan, seed: number): WallAllocation {
  const units = unitsOf(plan);
  const arms = plan.arms.flatMap(({ arm, count }) => Array.from({ length: count }, () => arm));
  const sideOf = new Map(plan.arms.map(({ arm, side }) => [arm, side]));
  const stream = randomStream(seed);
  const hasBefore = plan.walls.every(({ before }) => before !== undefined);
  const { mostBeforeDifference: most } = plan;
  if (most !== undefined && !hasBefore) refuse('out-of-range', 'needs a before value of every wall for its constraint');
  for (let draws = 1; draws <= mostDraws; draws++) {
    const armOf = drawn(stream, units, arms);
    const sides = (wall: string) => sideOf.get(armOf.get(wall) ?? '');
    const difference = hasBefore ? beforeDifference(plan, sides) : undefined;
    // As the test that uses the same constraint: a limit that is met but for rounding is met.
    if (most !== undefined && difference !== undefined && Math.abs(difference) > most * (1 + 1e-10)) continue;
    return {
      walls: plan.walls.map(({ wall, group }) => ({
        wall,
        arm: armOf.get(wall) ?? '',
        ...present({ group }),
      })),
      seed,
      draws,
      ...present({ beforeDifference: difference }),
    };
  }
  return refuse(
    'not-possible',
    `found no allocation in ${mostDraws} draws whose sides differ by at most ${most} before; allow more`,
  );
}

/** What is drawn together in one go: groups of units, each unit the walls that get one arm. */
type Units = readonly (readonly (readonly WallToAllocate[])[])[];

function unitsOf({ kind, walls, arms }: AllocationPlan): Units {
  const needed = arms.reduce((sum, { count }) => sum + count, 0);
  const names = new Set(walls.map(({ wall }) => wall));
  if (names.size < walls.length) refuse('out-of-range', 'needs walls with names of their own');
  if (arms.length < 2 || arms.some(({ count }) => !Number.isSafeInteger(count) || count < 1))
    refuse('out-of-range', 'needs two arms or more, each drawn once at least');
  if (walls.length < arms.length)
    refuse('too-few', `needs as many walls as arms, got ${walls.length} for ${arms.length}`);
  if (kind === 'complete') {
    if (walls.length !== needed) refuse('out-of-range', `needs ${needed} walls for its arms, got ${walls.length}`);
    return [walls.map((wall) => [wall])];
  }
  if (walls.some(({ group }) => group === undefined || group === ''))
    refuse('out-of-range', `needs a ${kind === 'houses' ? 'house' : 'block'} of every wall`);
  const groups = [...groupBy(walls, ({ group = '' }) => group).values()];
  if (kind === 'houses') {
    if (groups.length !== needed) refuse('out-of-range', `needs ${needed} houses for its arms, got ${groups.length}`);
    return [groups];
  }
  const wrong = groups.find(({ length }) => length !== needed);
  if (wrong !== undefined)
    refuse('too-few', `needs ${needed} walls in every block, got ${wrong.length} in ${wrong[0]?.group}`);
  return groups.map((group) => group.map((wall) => [wall]));
}

function drawn(stream: RandomStream, units: Units, arms: readonly string[]): ReadonlyMap<string, string> {
  return new Map(
    units.flatMap((group) => {
      const order = shuffled(stream, arms);
      return group.flatMap((unit, at) => unit.map(({ wall }): [string, string] => [wall, order[at] ?? '']));
    }),
  );
}

/** As the randomisation test has it: inside pairs and blocks weighted by nt nc / (nt + nc); of houses their means. */
function beforeDifference(
  { kind, walls }: AllocationPlan,
  sideOf: (wall: string) => 'treated' | 'untreated' | undefined,
): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const units =
    kind === 'houses'
      ? [...groupBy(walls, ({ group = '' }) => group).values()].map((house) => ({
          block: '',
          side: sideOf(house[0]?.wall ?? ''),
          value: mean(house.map(({ before = 0 }) => before)),
        }))
      : walls.map(({ wall, group = '', before = 0 }) => ({ block: group, side: sideOf(wall), value: before }));
  const blocks =
    kind === 'complete' || kind === 'houses' ? [units] : [...groupBy(units, ({ block }) => block).values()];
  let [sum, weights] = [0, 0];
  for (const block of blocks) {
    const on = (side: 'treated' | 'untreated') => block.filter((unit) => unit.side === side).map(({ value }) => value);
    const [treated, untreated] = [on('treated'), on('untreated')];
    if (treated.length === 0 || untreated.length === 0) continue;
    const weight = (treated.length * untreated.length) / (treated.length + untreated.length);
    sum += weight * (mean(treated) - mean(untreated));
    weights += weight;
  }
  return weights === 0 ? 0 : sum / weights;
}

function refuse(fault: 'out-of-range' | 'too-few' | 'not-possible', detail: string): never {
  throw new PlanningError('allocateWalls', fault, detail);
}
