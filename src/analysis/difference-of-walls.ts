import { blocked, type MeanComparison, paired, StatisticsError, welch } from '../statistics/index.js';
import type { ComparisonDesign } from './comparison-design.js';
import type { DifferenceMethod } from './difference-method.js';
import type { PlacedWall, Side } from './wall-change.js';
import { byBlock } from './wall-groups.js';

export type { DifferenceMethod } from './difference-method.js';

export interface DifferenceOfWalls {
  readonly method: DifferenceMethod;
  readonly result: MeanComparison<string>;
}

/**
 * Treated less untreated walls in one number of each wall, by the method that the design calls for: Welch's without blocks,
 * Student's over pair differences, least squares on arm and block.
 *
 * @throws StatisticsError where the design leaves nothing to judge chance by, or no block holds both sides
 * @example differenceOfWalls(design, ({ change }) => change, 0.95).result.estimate // -4.144
 */
export function differenceOfWalls<W extends PlacedWall>(
  design: ComparisonDesign<W>,
  numberOf: (wall: W) => number,
  level: number,
): DifferenceOfWalls {
  const on = (walls: readonly W[], side: Side) => walls.filter((wall) => wall.side === side).map(numberOf);
  switch (design.kind) {
    case 'complete':
      return { method: 'welch', result: welch(on(design.walls, 'treated'), on(design.walls, 'untreated'), { level }) };
    case 'pairs': {
      const differences = design.pairs.map(({ treated, untreated }) => numberOf(treated) - numberOf(untreated));
      return { method: 'paired-blocks', result: paired(differences, { level }) };
    }
    case 'blocks': {
      const blocks = byBlock(design.walls).map((walls) => ({ x: on(walls, 'treated'), y: on(walls, 'untreated') }));
      return { method: 'block-model', result: blocked(blocks, { level }) };
    }
    case 'confounded':
      throw new StatisticsError('differenceOfWalls', 'collinear', 'needs a block that holds both sides');
  }
}
