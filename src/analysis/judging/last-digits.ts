import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { type ChiSquareTest, homogeneity, uniformity } from '../../statistics/index.js';
import { type Trial, windowSorter } from '../../trial/index.js';
import type { Side } from '../wall-change.js';
import { inSteps } from './in-steps.js';
import { sidesOfWalls } from './sides-of-walls.js';

export interface DigitsOf {
  /** Wet and dry masses of cores, or readings of the outcome's instrument. */
  readonly of: 'masses' | 'readings';
  /** Step of the last digit, in grams or in the instrument's unit. */
  readonly step: number;
  readonly numbers: number;
  /** How often each last digit came, from 0 to 9: of all, by side and by window. */
  readonly counts: readonly number[];
  readonly bySide: Readonly<Record<Side, readonly number[]>>;
  readonly byWindow: Readonly<Record<'before' | 'after', readonly number[]>>;
  /** Against equal shares. */
  readonly uniform: ChiSquareTest;
  /** Side against side, and window against window; absent with fewer than 50 numbers in one of them. */
  readonly sides?: ChiSquareTest;
  readonly windows?: ChiSquareTest;
  /** Numbers that an instrument with the stated resolution cannot show. */
  readonly finerThanStated: number;
}

export interface LastDigits {
  /** Absent where the numbers are fewer than 100, were computed, or vary over fewer than 100 steps. */
  readonly tested: readonly DigitsOf[];
  /** The smallest p-value of all tests, times their number, at most 1; 1 without any. */
  readonly pValue: number;
  /** Below 0.001: our convention. */
  readonly isAlarm: boolean;
}

/** Numbers that a test takes, and each group of a comparison: our conventions. */
const fewest = 100;
const fewestInGroup = 50;
/** Two digits that vary: the middle nine tenths of the numbers span so many steps at least. */
const fewestSteps = 100;
const alarm = 0.001;

/**
 * Last digits of masses and readings. Where numbers spread over a hundred steps of what they were read from, chance alone
 * decides the last digit: all ten come equally often, in both arms and both windows. People who make numbers up favour some. The step is
 * that with which all numbers could have been written, so that a display in steps of 0.02 or 0.05 has all ten of its own.
 * An honest reader who rounds a scale by eye fails the test too: it asks how numbers came about, and proves nothing.
 *
 * @example lastDigits(trial).tested.map(({ of, numbers }) => [of, numbers]) // [['masses', 1725]]
 * @source Preece 1981, The Statistician 30:31-60, distributions of final digits in data (citation seen); Al-Marzouki et al. 2005, BMJ 331:267-270
 */
export function lastDigits(trial: Trial): LastDigits {
  const tested = [digitsOf(trial, 'masses', massesOf(trial)), digitsOf(trial, 'readings', readingsOf(trial))].flatMap(
    (digits) => digits ?? [],
  );
  const tests = tested.flatMap(({ uniform, sides, windows }) => [
    uniform,
    ...(sides ? [sides] : []),
    ...(windows ? [windows] : []),
  ]);
  const least = tests.reduce((smallest, { pValue }) => Math.min(smallest, pValue), 1);
  const pValue = Math.min(1, least * Math.max(1, tests.length));
  return { tested, pValue, isAlarm: pValue < alarm };
}

interface WrittenNumber {
  readonly value: number;
  readonly side: Side | undefined;
  readonly window: 'before' | 'after' | undefined;
}

function massesOf(trial: Trial): readonly WrittenNumber[] {
  const placed = placing(trial);
  // A core that is weighed again keeps its dry mass, whose last digit then counts once.
  const dry = new Set<string>();
  return trial.cores.flatMap(({ wall, date, sample, station, wet_g, dry_g }) => {
    const place = placed(wall, date);
    const key = JSON.stringify([wall, sample ?? station, dry_g]);
    const isNew = dry_g !== undefined && !dry.has(key);
    dry.add(key);
    return [...(wet_g === undefined ? [] : [wet_g]), ...(isNew ? [dry_g] : [])].map((value) => ({ value, ...place }));
  });
}

function readingsOf(trial: Trial): readonly WrittenNumber[] {
  const { instruments, outcome } = trial.protocol;
  const kind = instruments.find(({ instrument }) => instrument === outcome.instrument)?.kind;
  if (kind === 'embedded-sensor') return [];
  const placed = placing(trial);
  return trial.readings.flatMap(({ wall, date, instrument, value }) =>
    instrument === outcome.instrument && value.kind === 'measured'
      ? [{ value: value.value, ...placed(wall, date) }]
      : [],
  );
}

function placing(trial: Trial): (wall: string, date: string) => Omit<WrittenNumber, 'value'> {
  const sides = sidesOfWalls(trial);
  const windowOf = windowSorter(trial);
  return (wall, date) => ({ side: sides.get(wall), window: windowOf(wall, isoDay(date)) });
}

function digitsOf(trial: Trial, of: DigitsOf['of'], numbers: readonly WrittenNumber[]): DigitsOf | undefined {
  if (numbers.length < fewest) return undefined;
  const { step, steps, isRead } = inSteps(numbers.map(({ value }) => value));
  const sorted = steps.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? 0;
  if (!isRead || at(0.95) - at(0.05) < fewestSteps) return undefined;
  const digits = numbers.map((number, index) => ({ ...number, digit: Math.abs(steps[index] ?? 0) % 10 }));
  const counted = (kept: readonly { readonly digit: number }[]) => {
    const counts = new Array<number>(10).fill(0);
    for (const { digit } of kept) counts[digit] = (counts[digit] ?? 0) + 1;
    return counts;
  };
  const on = (side: Side) => counted(digits.filter((one) => one.side === side));
  const inside = (window: 'before' | 'after') => counted(digits.filter((one) => one.window === window));
  const bySide = { treated: on('treated'), untreated: on('untreated') };
  const byWindow = { before: inside('before'), after: inside('after') };
  const counts = counted(digits);
  const sides = compared(bySide.treated, bySide.untreated);
  const windows = compared(byWindow.before, byWindow.after);
  return {
    ...{ of, step, numbers: numbers.length, counts, bySide, byWindow, uniform: uniformity(counts) },
    ...present({ sides, windows }),
    finerThanStated: of === 'masses' ? finerThanStated(trial, numbers) : 0,
  };
}

function compared(one: readonly number[], other: readonly number[]): ChiSquareTest | undefined {
  const isEnough = [one, other].every((counts) => counts.reduce((sum, count) => sum + count, 0) >= fewestInGroup);
  return isEnough ? homogeneity([one, other]) : undefined;
}

function finerThanStated({ protocol }: Trial, numbers: readonly WrittenNumber[]): number {
  const resolution = protocol.instruments.find(({ kind }) => kind === 'gravimetric')?.resolution_g;
  if (resolution === undefined) return 0;
  const isShown = ({ value }: WrittenNumber) => {
    const steps = value / resolution;
    return Math.abs(steps - Math.round(steps)) < 1e-6 * Math.max(1, Math.abs(steps));
  };
  return numbers.filter((number) => !isShown(number)).length;
}
