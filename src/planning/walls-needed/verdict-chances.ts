import type { VerdictCode } from '../../analysis/index.js';
import { verdictCode } from '../../analysis/verdict-code.js';
import { normalUpperTail } from '../../statistics/numerics/special-functions/normal-tails.js';
import { PlanningError } from '../planning-error.js';
import { type DifferenceErrors, differenceErrors, type PlannedComparison } from './difference-errors.js';
import { type HalfWidth, halfWidthsOf, type IntervalLaw } from './interval-law.js';

/** The chance of every verdict; they add up to 1. */
export type VerdictChances = Readonly<Record<VerdictCode, number>>;

const codes = [
  'worthwhile',
  'some-effect',
  'smaller-than-worthwhile',
  'no-worthwhile-effect',
  'harmful',
  'undecided',
] as const satisfies readonly Exclude<VerdictCode, 'not-answerable'>[];

/**
 * How often each verdict would come out if the true effect were `effect`, by the rule of the opinion (`verdictCode`) and its t
 * interval: exact, by integration over the chi-square of the error, for normal changes that vary alike in both arms.
 *
 * Threats to validity are left out: they move the evidence, and a fatal one makes any trial `not-answerable`. What is counted as that
 * here is drop-out that leaves too few walls for an interval.
 *
 * @param effect on the better side, positive, in the unit of the outcome
 * @param margin undefined where the plan states none
 * @throws PlanningError `out-of-range`, `not-possible`
 * @example verdictChances(inPairs, 4, 2).worthwhile // 0.977
 */
export function verdictChances(planned: PlannedComparison, effect: number, margin: number | undefined): VerdictChances {
  checkMargin('verdictChances', effect, margin);
  return chancesOfErrors(differenceErrors(planned), margin)(effect);
}

/** The same from errors that are known already, for as many true effects as are asked for: how wide intervals come out, none of them changes. */
export function chancesOfErrors(
  errors: DifferenceErrors,
  margin: number | undefined,
): (effect: number) => VerdictChances {
  const inErrors = errors.map(({ probability, standardError, law }) => {
    const ofMargin = margin === undefined ? {} : { margin: margin / standardError };
    return { probability, standardError, ofMargin, widths: widthsOf(law, ofMargin.margin) };
  });
  return (effect) => {
    const sums = new Map<VerdictCode, number>();
    for (const { probability, standardError, ofMargin, widths } of inErrors)
      addChances(sums, probability, widths, { effect: effect / standardError, ...ofMargin });
    return withRest(sums);
  };
}

/** Half the margin is where `smaller-than-worthwhile` ends and `undecided` begins: on either side the verdicts come in one order. */
const bendOf = (margin: number | undefined) => (margin === undefined ? undefined : margin / 2);

/** The half widths that may come out, for `addChances` with the same margin in true standard errors. */
export function widthsOf(law: IntervalLaw, margin: number | undefined): readonly HalfWidth[] {
  return halfWidthsOf(law, bendOf(margin));
}

/** What is left is the chance of no interval; rounding may leave a little less than nothing. */
export function withRest(sums: ReadonlyMap<VerdictCode, number>): VerdictChances {
  const of = (code: VerdictCode) => Math.min(1, Math.max(0, sums.get(code) ?? 0));
  const answered = codes.reduce((sum, code) => sum + of(code), 0);
  const rest = 1 - answered;
  return {
    worthwhile: of('worthwhile'),
    'some-effect': of('some-effect'),
    'smaller-than-worthwhile': of('smaller-than-worthwhile'),
    'no-worthwhile-effect': of('no-worthwhile-effect'),
    harmful: of('harmful'),
    undecided: of('undecided'),
    'not-answerable': rest > 1e-9 ? rest : 0,
  };
}

/** Everything in true standard errors of the difference. */
export interface TruthInErrors {
  readonly effect: number;
  readonly margin?: number;
  /** How many times as much the estimate scatters about the effect as its interval knows of; 1 unless told. */
  readonly scatter?: number;
}

/**
 * Adds the chances of the verdicts under one law, weighted by how probable it is. The verdict is a step function of the estimate: its
 * steps are where a limit of the interval touches zero or the margin.
 */
export function addChances(
  sums: Map<VerdictCode, number>,
  probability: number,
  widths: readonly HalfWidth[],
  { effect, margin, scatter = 1 }: TruthInErrors,
): void {
  const bend = bendOf(margin);
  const parts = new Map<boolean, { readonly codes: readonly VerdictCode[]; readonly chances: number[] }>();
  for (const { probability: weight, halfWidth } of widths) {
    const isWide = bend !== undefined && halfWidth > bend;
    const steps = stepsOf(halfWidth, margin);
    const known = parts.get(isWide);
    const part = known ?? { codes: codesBetween(steps, halfWidth, margin), chances: Array(steps.length + 1).fill(0) };
    if (known === undefined) parts.set(isWide, part);
    let before = farBelow;
    for (let at = 0; at < steps.length; at++) {
      const z = ((steps[at] ?? 0) - effect) / scatter;
      const place = { z, tail: normalUpperTail(Math.abs(z)) };
      part.chances[at] = (part.chances[at] ?? 0) + weight * between(before, place);
      before = place;
    }
    part.chances[steps.length] = (part.chances[steps.length] ?? 0) + weight * between(before, farAbove);
  }
  for (const { codes: codesInOrder, chances } of parts.values())
    for (const [at, code] of codesInOrder.entries())
      sums.set(code, (sums.get(code) ?? 0) + probability * (chances[at] ?? 0));
}

/** Where a limit of the interval touches zero or the margin, in order. */
function stepsOf(half: number, margin: number | undefined): readonly number[] {
  if (margin === undefined) return [-half, half];
  const [inner, outer] = half <= margin / 2 ? [half, margin - half] : [margin - half, half];
  return [-half, inner, outer, margin + half];
}

/** The verdicts of estimates below, between and above the steps. */
function codesBetween(steps: readonly number[], half: number, margin: number | undefined): readonly VerdictCode[] {
  const [first = 0, last = 0] = [steps[0], steps.at(-1)];
  const middles = [first - 1, ...steps.slice(1).map((step, at) => (step + (steps[at] ?? 0)) / 2), last + 1];
  return middles.map((middle) =>
    verdictCode({ level: 0.95, lower: middle - half, upper: middle + half }, margin, 'higher'),
  );
}

/** A standard normal value with the tail beyond it, on its own side of zero. */
interface Place {
  readonly z: number;
  readonly tail: number;
}

const farBelow: Place = { z: Number.NEGATIVE_INFINITY, tail: 0 };
const farAbove: Place = { z: Number.POSITIVE_INFINITY, tail: 0 };

/** The chance of a standard normal value between two, by the tails that keep their digits. */
function between(from: Place, to: Place): number {
  if (from.z > 0) return from.tail - to.tail;
  return to.z < 0 ? to.tail - from.tail : 1 - from.tail - to.tail;
}

export function checkMargin(where: string, effect: number, margin: number | undefined): void {
  if (!Number.isFinite(effect)) throw new PlanningError(where, 'out-of-range', `needs a finite effect, got ${effect}`);
  if (margin !== undefined && !(margin > 0 && Number.isFinite(margin)))
    throw new PlanningError(where, 'out-of-range', `needs a margin above 0, got ${margin}`);
}
