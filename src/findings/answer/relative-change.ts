import { byBlock, type ComparisonDesign, type Primary, type Side, type WallChange } from '../../analysis/index.js';
import { orInstead } from '../../plain/unless-refused.js';
import { type Interval, isStatisticsError, mean, ratioOfEstimates, variance } from '../../statistics/index.js';
import { unitsPerPercentByMass } from '../../trial/index.js';
import { relativeInBlocks } from './relative-in-blocks.js';

/** A change in percent of what was there before. */
export interface Relative {
  readonly estimate_pct: number;
  /** Fieller’s; absent where the before value cannot be distinguished from zero, or the walls leave nothing to judge chance by. */
  readonly interval?: Interval;
  readonly walls: number;
}

/** The answer in percent of the before values, beside the one in percentage points. */
export interface RelativeAnswer {
  /** Each side’s mean change over its mean before value. */
  readonly sides: Readonly<Partial<Record<Side, Relative>>>;
  /** The primary difference over the treated walls’ mean before value. */
  readonly difference: Relative;
}

/**
 * How large the answer is in percent of what the walls held before, with walls as the units: a side’s mean change over its mean before
 * value, and the primary difference over the treated walls’ mean before value. The intervals are Fieller’s with the covariance of change and
 * before value; for unpaired walls the degrees of freedom are Satterthwaite’s at the estimated ratio, and in blocks of several walls the
 * blocks are taken as given. They hold for the ratio of means, which
 * is not the mean of the walls’ own ratios.
 *
 * Nothing where the outcome is no moisture by mass, where it was not read before, or where there is no primary difference of walls.
 *
 * @param unit of the outcome
 * @example relativeChange(design, primary, { level: 0.95, unit: '% by mass' }).difference.estimate_pct // -46.61
 * @source Fieller 1954, J. R. Stat. Soc. B 16:175-185 (from memory)
 */
export function relativeChange(
  design: ComparisonDesign,
  primary: Primary,
  { level, unit }: { readonly level: number; readonly unit: string },
): RelativeAnswer | undefined {
  if (unitsPerPercentByMass(unit) === undefined) return undefined;
  if (primary.kind === 'not-estimated' || primary.method === 'paired-series') return undefined;
  const walls = design.walls.flatMap(withBefore);
  const on = (side: Side) => walls.filter((wall) => wall.side === side);
  const [treated, untreated] = [on('treated'), on('untreated')];
  if (walls.length < design.walls.length || treated.length === 0 || untreated.length === 0) return undefined;
  const before = mean(treated.map((wall) => wall.before));
  if (!(before > 0)) return undefined;
  const sides = Object.fromEntries(
    [treated, untreated].flatMap((own) => {
      const relative = ofPairs(own, level);
      return relative === undefined ? [] : [[own[0]?.side ?? '', relative]];
    }),
  );
  return { sides, difference: differenceOf(design, primary.estimate.estimate, { treated, untreated, level }) };
}

type ReadWall = WallChange & { readonly before: number };

function withBefore(wall: WallChange): readonly ReadWall[] {
  return wall.before === undefined ? [] : [{ ...wall, before: wall.before }];
}

/** Change and before value of the same walls, or of pairs. */
function ofPairs(
  pairs: readonly { readonly change: number; readonly before: number }[],
  level: number,
): Relative | undefined {
  const [changes, befores] = [pairs.map(({ change }) => change), pairs.map(({ before }) => before)];
  const [numerator, denominator] = [mean(changes), mean(befores)];
  if (!(denominator > 0)) return undefined;
  const walls = pairs.length;
  const known = { estimate_pct: (100 * numerator) / denominator, walls };
  if (walls < 2) return known;
  return {
    ...known,
    ...percent({
      ...{ numerator, denominator, level, degreesOfFreedom: walls - 1 },
      numeratorVariance: variance(changes) / walls,
      denominatorVariance: variance(befores) / walls,
      covariance: covariance(changes, befores) / walls,
    }),
  };
}

interface Sides {
  readonly treated: readonly ReadWall[];
  readonly untreated: readonly ReadWall[];
  readonly level: number;
}

function differenceOf(design: ComparisonDesign, difference: number, sides: Sides): Relative {
  const { treated, untreated, level } = sides;
  const before = mean(treated.map((wall) => wall.before));
  const known = { estimate_pct: (100 * difference) / before, walls: treated.length + untreated.length };
  if (design.kind === 'pairs') {
    const pairs = design.pairs.flatMap((pair) =>
      pair.treated.before === undefined
        ? []
        : [{ change: pair.treated.change - pair.untreated.change, before: pair.treated.before }],
    );
    return { ...known, ...intervalOf(ofPairs(pairs, level)) };
  }
  if (design.kind === 'blocks') return { ...known, ...ofBlocks(design.walls.flatMap(withBefore), level) };
  if (design.kind !== 'complete' || treated.length < 2 || untreated.length < 2) return known;
  return { ...known, ...ofGroups(difference, before, sides) };
}

function ofBlocks(walls: readonly ReadWall[], level: number): Pick<Relative, 'interval'> {
  const blocks = byBlock(walls).map((own) =>
    own.map(({ side, change, before }) => ({ isTreated: side === 'treated', change, before })),
  );
  const pair = relativeInBlocks(blocks);
  return pair === undefined ? {} : percent({ ...pair, level });
}

function intervalOf(relative: Relative | undefined): Pick<Relative, 'interval'> {
  return relative?.interval === undefined ? {} : { interval: relative.interval };
}

/** The treated walls’ before value varies with their changes, and not with the untreated walls’. */
function ofGroups(
  difference: number,
  before: number,
  { treated, untreated, level }: Sides,
): Pick<Relative, 'interval'> {
  const [changes, befores] = [treated.map(({ change }) => change), treated.map((wall) => wall.before)];
  const ofUntreated = variance(untreated.map(({ change }) => change)) / untreated.length;
  const ratio = difference / before;
  const ofTreated = variance(treated.map((wall) => wall.change - ratio * wall.before)) / treated.length;
  const total = ofTreated + ofUntreated;
  const freedom = total ** 2 / (ofTreated ** 2 / (treated.length - 1) + ofUntreated ** 2 / (untreated.length - 1));
  return percent({
    ...{ numerator: difference, denominator: before, level, degreesOfFreedom: freedom },
    numeratorVariance: variance(changes) / treated.length + ofUntreated,
    denominatorVariance: variance(befores) / treated.length,
    covariance: covariance(changes, befores) / treated.length,
  });
}

function percent({
  level,
  ...pair
}: Parameters<typeof ratioOfEstimates>[0] & { readonly level: number }): Pick<Relative, 'interval'> {
  return orInstead(
    isStatisticsError,
    () => {
      const { interval } = ratioOfEstimates(pair, { level });
      if (interval === undefined) return {};
      return { interval: { level, lower: 100 * interval.lower, upper: 100 * interval.upper } };
    },
    () => ({}),
  );
}

function covariance(x: readonly number[], y: readonly number[]): number {
  const [meanX, meanY] = [mean(x), mean(y)];
  return x.reduce((sum, value, at) => sum + (value - meanX) * ((y[at] ?? meanY) - meanY), 0) / (x.length - 1);
}
