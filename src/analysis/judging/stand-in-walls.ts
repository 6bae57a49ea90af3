import type { MoistureReading } from '../../moisture/index.js';
import { groupBy, valuesBy } from '../../plain/group-by.js';
import {
  contrast,
  covariate,
  type DesignTerm,
  designMatrix,
  factor,
  intercept,
  leastSquares,
  mean,
} from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { measuredValue } from '../../trial/measured-value.js';
import type { Answer } from '../answer.js';
import type { ComparisonDesign } from '../comparison-design.js';
import { estimatedUnlessRefused } from '../not-estimated.js';
import type { WallChange } from '../wall-change.js';
import { wallCount } from '../wall-groups.js';
import { namesOfWalls } from '../walls-as-one.js';

/** A wall with its change of moisture and of what stands in for it. */
export interface StandInWall extends WallChange {
  readonly standInBefore: number;
  readonly standInAfter: number;
}

export const standInChange = ({ standInBefore, standInAfter }: StandInWall) => standInAfter - standInBefore;

/**
 * The walls of the comparison whose stations were read with the stand-in before and again later: means over those stations.
 */
export function standInWalls(
  design: ComparisonDesign,
  before: ValuesByStation,
  after: ValuesByStation,
): readonly StandInWall[] {
  return design.walls.flatMap((wall) => {
    const own = namesOfWalls(wall).flatMap((name) =>
      [...(before.get(name) ?? [])].flatMap(([station, value]) => {
        const again = after.get(name)?.get(station);
        return again === undefined ? [] : [{ before: mean(value), after: mean(again) }];
      }),
    );
    if (own.length === 0) return [];
    const [standInBefore, standInAfter] = [mean(own.map((one) => one.before)), mean(own.map((one) => one.after))];
    return [{ ...wall, standInBefore, standInAfter }];
  });
}

/** By wall and station. */
export type ValuesByStation = ReadonlyMap<string, ReadonlyMap<string, readonly number[]>>;

/** The values that were measured, by wall and station. */
export function valuesByStation(readings: readonly MoistureReading[]): ValuesByStation {
  const walls = groupBy(readings, ({ wall, value }) => (value.kind === 'measured' ? wall : undefined));
  return new Map([...walls].map(([wall, own]) => [wall, valuesBy(own, ({ station }) => station, measuredValue)]));
}

/** Least squares of the moisture change on arm, block and the stand-in's change. */
export function predictionInsideArms(
  { protocol }: Trial,
  design: ComparisonDesign<StandInWall>,
  instrument: string,
): Answer {
  const { walls } = design;
  const named = { id: 'stand-in-predicts', about: { kind: 'instrument', instrument } } as const;
  return estimatedUnlessRefused(
    named,
    () => {
      const changes = walls.map(standInChange);
      const centre = mean(changes);
      const terms = [
        ...sideAndBlock(design),
        covariate(
          'standIn',
          changes.map((change) => change - centre),
        ),
      ];
      const fit = leastSquares(
        designMatrix(terms),
        walls.map(({ change }) => change),
      );
      const { statistic: _, ...result } = contrast(fit, { standIn: 1 }, { level: protocol.confidence });
      return {
        kind: 'estimated',
        estimate: {
          ...named,
          ...result,
          unit: `${protocol.outcome.unit} per unit`,
          method: { kind: 'stand-in-slope', quantity: protocol.outcome.quantity },
          walls: wallCount(walls),
        },
      };
    },
    {
      collinear: { code: 'stand-in-is-arm' },
      'no-variation': { code: 'stand-in-alike' },
    },
  );
}

/** Side, and block where the design has blocks: what a stand-in has to foretell moisture beside. */
export function sideAndBlock(design: ComparisonDesign<StandInWall>): readonly DesignTerm[] {
  const { walls } = design;
  const side = factor(
    'side',
    walls.map((wall) => wall.side),
    { reference: 'untreated' },
  );
  if (design.kind !== 'pairs' && design.kind !== 'blocks') return [intercept(), side];
  const blocks = walls.map(({ block }) => block);
  return [intercept(), side, factor('block', blocks, { reference: blocks[0] ?? '' })];
}
