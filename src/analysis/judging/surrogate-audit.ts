import type { MoistureReading } from '../../moisture/index.js';
import {
  bootstrapOf,
  contrast,
  covariate,
  type DesignTerm,
  designMatrix,
  factor,
  type Interval,
  intercept,
  isStatisticsError,
  leastSquares,
  mean,
  paired,
} from '../../statistics/index.js';
import { isInWindow, type Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { compareWalls } from '../compare-walls.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import { notEstimated } from '../not-estimated.js';
import type { WallChange } from '../wall-change.js';
import { wallCount } from '../wall-groups.js';

/** A wall with its change of moisture and of what stands in for it. */
export interface StandInWall extends WallChange {
  readonly standInBefore: number;
  readonly standInAfter: number;
}

export interface ArmMovement {
  readonly arm: string;
  readonly walls: number;
  readonly change: number;
  /** Absent with one wall. */
  readonly interval?: Interval;
  /** Walls whose mean went from one side of zero to the other. */
  readonly turned: number;
}

export interface SurrogateAudit {
  readonly instrument: string;
  /** When the stand-in was read: between the windows, so that it comes before the moisture, or in the after window with it. */
  readonly when: 'before the moisture' | 'with the moisture';
  readonly arms: readonly ArmMovement[];
  /** Treated less untreated change of the stand-in. */
  readonly effectOnStandIn: Answer;
  /** Moisture change per unit of the stand-in's change, among walls of the same arm. */
  readonly prediction: Answer;
  /** Share of the effect on moisture that goes with the stand-in; 1 if it stood for all of it. */
  readonly shareExplained: Answer;
}

export interface StandInOptions {
  readonly instrument: string;
  readonly seed: number;
  /** Of the bootstrap of the share explained; 999 unless told. */
  readonly draws?: number;
}

/**
 * Whether an instrument may stand in for moisture: does it move with treatment and without, does its change foretell the wall's
 * change of moisture among walls of the same arm, and how much of the treatment's effect goes with it (Freedman, Graubard and
 * Schatzkin 1992, Stat. Med. 11:167-178; the criterion after Prentice 1989, Stat. Med. 8:431-440; both from memory).
 *
 * A stand-in that follows treatment, and moisture only because moisture follows treatment too, foretells nothing inside arms.
 *
 * @param design the primary comparison, with moisture changes
 * @param standIn readings of one other instrument
 * @returns the audit, or in plain words why there is none
 */
export function surrogateAudit(
  trial: Trial,
  design: ComparisonDesign,
  standIn: readonly MoistureReading[],
  options: StandInOptions,
): SurrogateAudit | string {
  const { windows, instruments } = trial.protocol;
  const described = instruments.find(({ instrument }) => instrument === options.instrument);
  if (described?.kind === 'potential' && described.polarity === undefined)
    return 'the plan does not say which lead stood where (polarity), and a voltage without that has no sign: a swapped lead is a flip';
  if (windows === undefined) return 'the plan states no windows';
  const between = standIn.filter(({ day }) => day > windows.before.to && day < windows.after.from);
  const early = wallsOf(design, standIn, (day) => isInWindow(day, windows.before), between);
  const late = wallsOf(
    design,
    standIn,
    (day) => isInWindow(day, windows.before),
    standIn.filter(({ day }) => isInWindow(day, windows.after)),
  );
  const [when, walls] =
    early.length >= late.length && early.length > 0
      ? (['before the moisture', early] as const)
      : (['with the moisture', late] as const);
  if (walls.length < 4) return `only ${walls.length} walls were read with it before and again later; it takes four`;
  const { design: compared } = comparisonDesign(walls);
  return {
    instrument: options.instrument,
    when,
    arms: movements(trial, walls),
    effectOnStandIn: compareWalls(
      walls.map((wall) => ({ ...wall, value: wall.standInAfter - wall.standInBefore })),
      {
        id: 'effect-on-stand-in',
        label: `Effect on ${options.instrument}`,
        quantity: `change of ${options.instrument}`,
        unit: unitOf(trial, options.instrument),
        level: trial.protocol.confidence,
        scale: 'difference',
      },
    ),
    prediction: prediction(trial, compared, options.instrument),
    shareExplained: shareExplained(trial, compared, options),
  };
}

export function unitOf({ protocol }: Trial, instrument: string): string {
  const { kind } = protocol.instruments.find((one) => one.instrument === instrument) ?? {};
  return kind === 'potential' ? 'mV' : 'units of the instrument';
}

function wallsOf(
  design: ComparisonDesign,
  readings: readonly MoistureReading[],
  isBefore: (day: string) => boolean,
  later: readonly MoistureReading[],
): readonly StandInWall[] {
  const before = meansByStation(readings.filter(({ day }) => isBefore(day)));
  const after = meansByStation(later);
  return design.walls.flatMap((wall) => {
    const own = [...(before.get(wall.wall) ?? [])].flatMap(([station, value]) => {
      const again = after.get(wall.wall)?.get(station);
      return again === undefined ? [] : [{ before: mean(value), after: mean(again) }];
    });
    if (own.length === 0) return [];
    const [standInBefore, standInAfter] = [mean(own.map((one) => one.before)), mean(own.map((one) => one.after))];
    return [{ ...wall, standInBefore, standInAfter }];
  });
}

function meansByStation(readings: readonly MoistureReading[]): ReadonlyMap<string, Map<string, number[]>> {
  const walls = new Map<string, Map<string, number[]>>();
  for (const { wall, station, value } of readings) {
    if (value.kind !== 'measured') continue;
    const stations = walls.get(wall) ?? new Map<string, number[]>();
    stations.set(station, [...(stations.get(station) ?? []), value.value]);
    walls.set(wall, stations);
  }
  return walls;
}

const standInChange = ({ standInBefore, standInAfter }: StandInWall) => standInAfter - standInBefore;

function movements({ protocol }: Trial, walls: readonly StandInWall[]): readonly ArmMovement[] {
  return protocol.arms.flatMap(({ arm }) => {
    const own = walls.filter((wall) => wall.arm === arm);
    if (own.length === 0) return [];
    const changes = own.map(standInChange);
    const turned = own.filter((wall) => wall.standInBefore * wall.standInAfter < 0).length;
    return [{ arm, walls: own.length, change: mean(changes), ...intervalOf(changes, protocol.confidence), turned }];
  });
}

function intervalOf(changes: readonly number[], level: number): { readonly interval?: Interval } {
  try {
    return { interval: paired(changes, { level }).interval };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    return {};
  }
}

/** Least squares of the moisture change on arm, block and the stand-in's change. */
function prediction({ protocol }: Trial, design: ComparisonDesign<StandInWall>, instrument: string): Answer {
  const { walls } = design;
  const [id, label] = ['stand-in-predicts', `Moisture foretold by ${instrument}, inside arms`];
  try {
    const changes = walls.map(standInChange);
    const centre = mean(changes);
    const terms: DesignTerm[] = [
      intercept(),
      factor(
        'side',
        walls.map(({ side }) => side),
        { reference: 'untreated' },
      ),
      covariate(
        'standIn',
        changes.map((change) => change - centre),
      ),
    ];
    if (design.kind === 'pairs' || design.kind === 'blocks')
      terms.push(
        factor(
          'block',
          walls.map(({ block }) => block),
          { reference: walls[0]?.block ?? '' },
        ),
      );
    const fit = leastSquares(
      designMatrix(terms),
      walls.map(({ change }) => change),
    );
    const { statistic: _, ...result } = contrast(fit, { standIn: 1 }, { level: protocol.confidence });
    return {
      kind: 'estimated',
      estimate: {
        ...{ id, label, ...result },
        quantity: `change of ${protocol.outcome.quantity} per unit of the stand-in’s change, among walls of one arm`,
        unit: `${protocol.outcome.unit} per unit`,
        method: 'least squares of moisture change on arm, block and the stand-in’s change, interval by Student’s t',
        assumptions: [
          'walls are independent of each other, apart from their block',
          'the slope is the same in every arm',
        ],
        walls: wallCount(walls),
      },
    };
  } catch (error) {
    return notEstimated(id, label, error, {
      collinear: 'the stand-in’s changes cannot be told from arm and block',
      'no-variation': 'the stand-in did not change differently between walls',
    });
  }
}

/** The slope inside arms, times the effect on the stand-in, over the effect on moisture; walls drawn again inside arms. */
function shareExplained(
  { protocol }: Trial,
  design: ComparisonDesign<StandInWall>,
  { seed, draws = 999 }: StandInOptions,
): Answer {
  const [id, label] = ['share-explained', 'Share of the effect that goes with the stand-in'];
  const treated = design.walls.filter(({ side }) => side === 'treated');
  const untreated = design.walls.filter(({ side }) => side === 'untreated');
  try {
    const isClear = compareWalls(
      design.walls.map((wall) => ({ ...wall, value: wall.change })),
      { id, label, quantity: '', unit: '', level: protocol.confidence, scale: 'difference' },
    );
    const limits = isClear.kind === 'estimated' ? isClear.estimate.interval : undefined;
    if (limits === undefined || limits.lower * limits.upper <= 0) {
      const reason = 'the effect on moisture cannot be told from none, so that there is nothing to share out';
      return { kind: 'not-estimated', notEstimated: { id, label, reason } };
    }
    const result = bootstrapOf([treated, untreated], shareOf, {
      seed,
      method: 'percentile',
      draws,
      level: protocol.confidence,
    });
    return {
      kind: 'estimated',
      estimate: {
        ...{ id, label, unit: 'share of the effect', estimate: result.estimate, interval: result.interval },
        quantity: 'slope inside arms times the effect on the stand-in, over the effect on moisture',
        method: `percentile bootstrap, whole walls drawn again inside arms, ${draws} draws`,
        assumptions: ['nothing else moves both the stand-in and the moisture of a wall', 'blocks are not used'],
        walls: wallCount(design.walls),
      },
    };
  } catch (error) {
    return notEstimated(id, label, error, { 'not-finite': 'draws of these walls leave no effect to share out' });
  }
}

function shareOf([treated = [], untreated = []]: readonly (readonly StandInWall[])[]): number {
  let [crossed, squares] = [0, 0];
  const means = [treated, untreated].map((arm) => {
    const [s, y] = [mean(arm.map(standInChange)), mean(arm.map(({ change }) => change))];
    for (const wall of arm) {
      crossed += (standInChange(wall) - s) * (wall.change - y);
      squares += (standInChange(wall) - s) ** 2;
    }
    return { s, y };
  });
  const [on, off] = means as [{ s: number; y: number }, { s: number; y: number }];
  // A draw in which the stand-in never differs explains nothing.
  return squares === 0 ? 0 : ((crossed / squares) * (on.s - off.s)) / (on.y - off.y);
}
