import { PlanningError } from '../planning-error.js';

/**
 * How walls are to be arranged, which decides the method as in an opinion: Welch's t between walls or between houses, Student's over
 * pair differences, least squares inside blocks; two walls are followed visit by visit.
 */
export type PlannedDesign =
  | { readonly kind: 'complete'; readonly treated: number; readonly untreated: number }
  | { readonly kind: 'pairs'; readonly pairs: number }
  /** So many treated and untreated walls in each block. */
  | { readonly kind: 'blocks'; readonly blocks: number; readonly treated: number; readonly untreated: number }
  /** Whole houses are allocated, and a house answers by the mean over its walls. */
  | { readonly kind: 'houses'; readonly treated: number; readonly untreated: number; readonly wallsPerHouse: number }
  | { readonly kind: 'two-walls' };

/**
 * How many walls a design has, both sides together.
 *
 * @example wallsOfDesign({ kind: 'houses', treated: 6, untreated: 6, wallsPerHouse: 3 }) // 36
 */
export function wallsOfDesign(design: PlannedDesign): number {
  switch (design.kind) {
    case 'complete':
      return design.treated + design.untreated;
    case 'pairs':
      return 2 * design.pairs;
    case 'blocks':
      return design.blocks * (design.treated + design.untreated);
    case 'houses':
      return (design.treated + design.untreated) * design.wallsPerHouse;
    case 'two-walls':
      return 2;
  }
}

/**
 * The same design with `steps` times its smallest size: the proportion of the arms, the size of blocks and the walls in a house
 * stay. Two walls stay two.
 *
 * @example designOfSize({ kind: 'complete', treated: 8, untreated: 4 }, 3) // { kind: 'complete', treated: 6, untreated: 3 }
 */
export function designOfSize(design: PlannedDesign, steps: number): PlannedDesign {
  switch (design.kind) {
    case 'complete':
    case 'houses': {
      const common = commonDivisor(design.treated, design.untreated);
      return {
        ...design,
        treated: (design.treated / common) * steps,
        untreated: (design.untreated / common) * steps,
      };
    }
    case 'pairs':
      return { ...design, pairs: steps };
    case 'blocks':
      return { ...design, blocks: steps };
    case 'two-walls':
      return design;
  }
}

/** How many times its smallest size a design is. */
export function stepsOfDesign(design: PlannedDesign): number {
  switch (design.kind) {
    case 'complete':
    case 'houses':
      return commonDivisor(design.treated, design.untreated);
    case 'pairs':
      return design.pairs;
    case 'blocks':
      return design.blocks;
    case 'two-walls':
      return 1;
  }
}

/** How many walls share a pair, a block or a house; 1 where walls share none. */
export function wallsInGroup(design: PlannedDesign): number {
  switch (design.kind) {
    case 'complete':
    case 'two-walls':
      return 1;
    case 'pairs':
      return 2;
    case 'blocks':
      return design.treated + design.untreated;
    case 'houses':
      return design.wallsPerHouse;
  }
}

export function checkDesign(where: string, design: PlannedDesign): void {
  for (const [name, count] of Object.entries(design)) {
    if (name === 'kind' || (typeof count === 'number' && Number.isSafeInteger(count) && count >= 1)) continue;
    throw new PlanningError(where, 'out-of-range', `needs a whole number of ${name} from 1, got ${count}`);
  }
}

function commonDivisor(one: number, other: number): number {
  return other === 0 ? one : commonDivisor(other, one % other);
}
