import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween, middleDay } from '../../plain/days.js';
import { orInstead } from '../../plain/unless-refused.js';
import { type Interval, isStatisticsError, mean, paired } from '../../statistics/index.js';
import { daySorter, type Trial, windowsOf } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { compareWalls } from '../compare-walls.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import type { Reason } from '../reason.js';
import { type LagOfStandIn, lagsOfStandIn } from './lags-of-stand-in.js';
import { shareExplained } from './share-explained.js';
import {
  predictionInsideArms,
  type StandInWall,
  standInChange,
  standInWalls,
  valuesByStation,
} from './stand-in-walls.js';

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
  /** Days from the mean day of the stand-in's later readings to the middle of the after window; below zero if they came later. */
  readonly delay_days: number;
  /** The same for each later visit by itself, where there are several. */
  readonly lags: readonly LagOfStandIn[];
  /** Treated less untreated change of the stand-in. */
  readonly effectOnStandIn: Answer;
  /** Moisture change per unit of the stand-in's change, among walls of the same arm. */
  readonly prediction: Answer;
  /** Share of the effect on moisture that goes with the stand-in; 1 if it stood for all of it. */
  readonly shareExplained: Answer;
}

/** Fewer leave nothing to fit a slope inside arms to. */
const fewestWalls = 4;

export interface StandInOptions {
  readonly instrument: string;
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
 * @returns the audit, or why there is none
 * @example
 * const standIn = readings.filter(({ instrument }) => instrument === 'microwave');
 * surrogateAudit(trial, design, standIn, { instrument: 'microwave' }).prediction.estimate.estimate // 0.3404
 */
export function surrogateAudit(
  trial: Trial,
  design: ComparisonDesign,
  standIn: readonly MoistureReading[],
  options: StandInOptions,
): SurrogateAudit | Reason {
  const { instruments } = trial.protocol;
  const described = instruments.find(({ instrument }) => instrument === options.instrument);
  if (described?.kind === 'potential' && described.polarity === undefined) return { code: 'polarity-unknown' };
  const windowsOfWalls = new Map(trial.walls.map(({ wall }) => [wall, windowsOf(trial, wall)]));
  if ([...windowsOfWalls.values()].every((windows) => windows === undefined)) return { code: 'no-windows' };
  const sorted = daySorter(trial);
  const before = valuesByStation(standIn.filter(({ wall, day }) => sorted(wall, day) === 'before'));
  const between = standIn.filter(({ wall, day }) => {
    const windows = windowsOfWalls.get(wall);
    return windows !== undefined && day > windows.before.to && day < windows.after.from;
  });
  const beside = standIn.filter(({ wall, day }) => sorted(wall, day) === 'after');
  const early = standInWalls(design, before, valuesByStation(between));
  const late = standInWalls(design, before, valuesByStation(beside));
  const isEarly = early.length >= late.length && early.length > 0;
  const [when, walls, later] = isEarly
    ? (['before the moisture', early, between] as const)
    : (['with the moisture', late, beside] as const);
  if (walls.length < fewestWalls) return { code: 'too-few-stand-in-walls', walls: walls.length, needed: fewestWalls };
  const meanDelay = mean(
    later.flatMap(({ wall, day }) => {
      const windows = windowsOfWalls.get(wall);
      return windows === undefined ? [] : [daysBetween(day, middleDay(windows.after))];
    }),
  );
  const { design: compared } = comparisonDesign(walls);
  return {
    instrument: options.instrument,
    when,
    delay_days: Math.round(meanDelay),
    lags: lagsOfStandIn(trial, design, standIn, options.instrument),
    arms: movements(trial, walls),
    effectOnStandIn: compareWalls(
      walls.map((wall) => ({ ...wall, value: standInChange(wall) })),
      {
        id: 'effect-on-stand-in',
        about: { kind: 'instrument', instrument: options.instrument },
        unit: unitOf(trial, options.instrument),
        level: trial.protocol.confidence,
        scale: 'difference',
      },
    ),
    prediction: predictionInsideArms(trial, compared, options.instrument),
    shareExplained: shareExplained(trial, compared),
  };
}

function unitOf({ protocol }: Trial, instrument: string): string {
  const { kind } = protocol.instruments.find((one) => one.instrument === instrument) ?? {};
  return kind === 'potential' ? 'mV' : 'units of the instrument';
}

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
  return orInstead(
    isStatisticsError,
    () => ({ interval: paired(changes, { level }).interval }),
    () => ({}),
  );
}
