import type {
  Answer,
  LeftOutReadings,
  LeftOutWall,
  Primary,
  Side,
  StationChange,
  UnitsOfComparison,
  WallChange,
} from '../../analysis/index.js';
import type { VerdictCode } from '../../analysis/verdict-code.js';
import { verdictCode } from '../../analysis/verdict-code.js';
import type { DryingChecks } from '../../findings/drying/drying-checks.js';
import type { TwoWallSeries } from '../../findings/two-walls/two-wall-series.js';
import type { MoistureReading } from '../../moisture/index.js';
import type { Trial } from '../../trial/index.js';
import type { MarginOrigin } from '../margin-of-trial.js';

/** What the threats are judged from: the trial as recorded and what the analysis made of it. */
export interface Facts {
  readonly trial: Trial;
  readonly marginOrigin: MarginOrigin;
  /** The side of every wall of the primary comparison, those without a change included. */
  readonly sides: ReadonlyMap<string, Side>;
  /** Walls with a change, those in the primary analysis. */
  readonly walls: readonly WallChange[];
  /** What the walls count as in the comparison. */
  readonly units: UnitsOfComparison;
  /** Walls of the comparison for which no change could be computed, or that stood alone in their block. */
  readonly leftOutWalls: readonly LeftOutWall[];
  readonly stations: readonly StationChange[];
  /** The outcome readings behind the walls' changes. */
  readonly used: readonly MoistureReading[];
  readonly leftOutReadings: readonly LeftOutReadings[];
  readonly primary: Primary;
  /** Smallest p-value that a randomisation test of this design can give; absent where no test is possible. */
  readonly smallestPossibleP?: number;
  /** The analyses that the threats need beside the primary one. */
  readonly analyses: readonly Answer[];
  /** The series of visits of a trial with two walls. */
  readonly series?: TwoWallSeries;
  /** What drying says against the readings. */
  readonly drying: DryingChecks;
}

export function wallsOn(facts: Facts, side: Side): readonly WallChange[] {
  return facts.walls.filter((wall) => wall.side === side);
}

/** Number of walls allocated to a side, with or without a change. */
export function allocatedTo(facts: Facts, side: Side): number {
  return [...facts.sides.values()].filter((one) => one === side).length;
}

/** How the outcome is read. */
export function kindOfOutcome({ trial }: Facts) {
  const { instruments, outcome } = trial.protocol;
  return instruments.find(({ instrument }) => instrument === outcome.instrument)?.kind;
}

/** The verdict that the primary interval alone would give; nothing where there is none. */
export function codeOfPrimary({ primary, trial }: Facts): Exclude<VerdictCode, 'not-answerable'> | undefined {
  const { margin, outcome } = trial.protocol;
  return primary.kind === 'estimated' ? verdictCode(primary.estimate.interval, margin, outcome.better) : undefined;
}

/** Verdicts that say that a worthwhile effect was not found: what hides an effect weighs against them. */
const nulls: ReadonlySet<VerdictCode | undefined> = new Set([
  'no-worthwhile-effect',
  'smaller-than-worthwhile',
  'undecided',
]);

export function isNull(facts: Facts): boolean {
  return nulls.has(codeOfPrimary(facts));
}

/** Whether the treated walls, blocks or pairs were drawn at random. */
export function isRandomised({ trial }: Facts): boolean {
  return trial.protocol.allocation.method !== 'chosen';
}

/** Walls of the comparison as they stand in `walls.csv`. */
export function comparedWalls({ trial, sides }: Facts): readonly (Trial['walls'][number] & { readonly side: Side })[] {
  return trial.walls.flatMap((wall) => {
    const side = sides.get(wall.wall);
    return side === undefined ? [] : [{ ...wall, side }];
  });
}
