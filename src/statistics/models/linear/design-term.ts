import { StatisticsError } from '../../statistics-error.js';

/** One part of a linear model, in the words of the data. Made by `intercept`, `factor`, `covariate` and `interaction`. */
export type DesignTerm = InterceptTerm | FactorTerm | CovariateTerm | InteractionTerm;

export interface InterceptTerm {
  readonly kind: 'intercept';
}

export interface FactorTerm {
  readonly kind: 'factor';
  readonly name: string;
  readonly values: readonly string[];
  /** Every level, in the order of the columns. */
  readonly levels: readonly string[];
  /** The level that gets no column, so that the others are differences from it. Absent: every level has a column. */
  readonly reference?: string;
}

export interface CovariateTerm {
  readonly kind: 'covariate';
  readonly name: string;
  readonly values: readonly number[];
}

export interface InteractionTerm {
  readonly kind: 'interaction';
  readonly first: DesignTerm;
  readonly second: DesignTerm;
}

export interface FactorOptions {
  /** Levels in the order wanted; defaults to those in the data, in code-unit order, so that row order is irrelevant. */
  readonly levels?: readonly string[];
  /** The level without a column. Defaults to none, which is right for one factor in a model without intercept. */
  readonly reference?: string;
}

/**
 * The column of ones, named `intercept`.
 *
 * @example designMatrix([intercept(), covariate('day', [0, 30])]).columns[0] // { name: 'intercept', values: [1, 1] }
 */
export function intercept(): InterceptTerm {
  return { kind: 'intercept' };
}

/**
 * One indicator column (0 or 1) for every level but the reference, named `factor: level`.
 *
 * @throws StatisticsError `empty-level` where a stated level (or the reference) has no observation; `out-of-range` where
 *   the data hold a level that is not among those stated, or a level is stated twice
 * @example factor('arm', ['control', 'treated', 'treated'], { reference: 'control' }).levels // ['control', 'treated']
 */
export function factor(name: string, values: readonly string[], options: FactorOptions = {}): FactorTerm {
  const present = new Set(values);
  const levels = options.levels ?? [...present].sort(byCodeUnit);
  checkLevels(name, levels, present);
  const { reference } = options;
  if (reference === undefined) return { kind: 'factor', name, values, levels };
  if (!levels.includes(reference)) throw emptyLevel(name, reference);
  return { kind: 'factor', name, values, levels, reference };
}

/**
 * One column of numbers as they stand.
 *
 * @example covariate('day', [0, 30, 61]) // { kind: 'covariate', name: 'day', values: [0, 30, 61] }
 */
export function covariate(name: string, values: readonly number[]): CovariateTerm {
  return { kind: 'covariate', name, values };
}

/**
 * The products of every column of one term with every column of another, named `a × b`.
 *
 * @example designMatrix([interaction(covariate('day', [1, 2]), covariate('heat', [3, 5]))]).columns // [{ name: 'day × heat', values: [3, 10] }]
 */
export function interaction(first: DesignTerm, second: DesignTerm): InteractionTerm {
  return { kind: 'interaction', first, second };
}

function byCodeUnit(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function checkLevels(name: string, levels: readonly string[], present: ReadonlySet<string>): void {
  const stated = new Set(levels);
  if (stated.size !== levels.length) {
    throw new StatisticsError('factor', 'out-of-range', `"${name}" needs each level once, got ${levels.join(', ')}`);
  }
  const empty = levels.find((level) => !present.has(level));
  if (empty !== undefined) throw emptyLevel(name, empty);
  const unknown = [...present].find((level) => !stated.has(level));
  if (unknown !== undefined) {
    const detail = `"${name}" holds "${unknown}", which is not among its levels ${levels.join(', ')}; add it or leave its rows out`;
    throw new StatisticsError('factor', 'out-of-range', detail);
  }
}

function emptyLevel(name: string, level: string): StatisticsError {
  const detail = `"${name}" has no observation at level "${level}"; leave that level out or add observations`;
  return new StatisticsError('factor', 'empty-level', detail);
}
