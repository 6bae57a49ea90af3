import { extremes, type ParameterBounds, type ParameterValues } from '../../statistics/index.js';
import type { DryingCurve } from '../drying-curve.js';

/** How a wall may dry, in the words of the field. */
export type DryingModelKind = 'constant-rate' | 'square-root' | 'exponential' | 'two-stage';

/** One shape of drying curve: a formula of named parameters. */
export interface DryingModel {
  readonly kind: DryingModelKind;
  /** In the order of `start`; the last, `dry`, where the model has an equilibrium. */
  readonly parameters: readonly string[];
  readonly moistureAt: (parameters: ParameterValues<string>, time_d: number) => number;
  /** Slopes by every parameter, where they are quickly had. */
  readonly gradient?: (parameters: ParameterValues<string>, time_d: number) => ParameterValues<string>;
  readonly starts: (curve: DryingCurve) => readonly ParameterValues<string>[];
  readonly bounds: (curve: DryingCurve) => Readonly<Record<string, ParameterBounds>>;
}

/**
 * The shapes that are tried. `wet` is the moisture at the start, `dry` the equilibrium, in the outcome's unit; `rate` is in
 * the unit per day (constant rate, two stages), per root of a day (square root) or in parts per day (exponential);
 * `change_d` is the day on which the constant rate ends.
 *
 * The falling stage of `two-stage` is an exponential that takes over the constant rate where it begins, so that the curve
 * has no bend: rate ∝ moisture above equilibrium from there on.
 */
export const dryingModels: Readonly<Record<DryingModelKind, DryingModel>> = {
  'constant-rate': {
    kind: 'constant-rate',
    parameters: ['wet', 'rate'],
    moistureAt: ({ wet = 0, rate = 0 }, time_d) => wet - rate * time_d,
    starts: (curve) => [{ wet: first(curve), rate: fall(curve) / span(curve) }],
    bounds: () => ({}),
  },
  'square-root': {
    kind: 'square-root',
    parameters: ['wet', 'rate'],
    moistureAt: ({ wet = 0, rate = 0 }, time_d) => wet - rate * Math.sqrt(time_d),
    starts: (curve) => [{ wet: first(curve), rate: fall(curve) / Math.sqrt(span(curve)) }],
    bounds: () => ({}),
  },
  exponential: {
    kind: 'exponential',
    parameters: ['wet', 'rate', 'dry'],
    moistureAt: ({ wet = 0, rate = 0, dry = 0 }, time_d) => dry + (wet - dry) * Math.exp(-rate * time_d),
    gradient: ({ wet = 0, rate = 0, dry = 0 }, time_d) => {
      const left = Math.exp(-rate * time_d);
      return { wet: left, rate: -(wet - dry) * left * time_d, dry: 1 - left };
    },
    starts: (curve) =>
      [1, 3, 10].map((turns) => ({ wet: first(curve), rate: turns / span(curve), dry: belowLast(curve, 0.1) })),
    bounds: (curve) => ({
      rate: { lower: 1e-3 / span(curve), upper: 100 / span(curve) },
      dry: { lower: least(curve) },
    }),
  },
  'two-stage': {
    kind: 'two-stage',
    parameters: ['wet', 'rate', 'change_d', 'dry'],
    moistureAt: twoStages,
    gradient: slopesOfTwoStages,
    starts: (curve) =>
      [0.15, 0.4, 0.7].map((share) => ({
        wet: first(curve),
        rate: (1.3 * Math.max(fall(curve), 1e-6)) / span(curve),
        change_d: share * span(curve),
        dry: belowLast(curve, 0.3),
      })),
    bounds: (curve) => ({
      rate: { lower: 0 },
      change_d: { lower: 0, upper: span(curve) },
      dry: { lower: least(curve) },
    }),
  },
};

function twoStages({ wet = 0, rate = 0, change_d = 0, dry = 0 }: ParameterValues<string>, time_d: number): number {
  if (time_d <= change_d) return wet - rate * time_d;
  const above = wet - rate * change_d - dry;
  // Below equilibrium already: the search is then told so by a curve that stays.
  if (above <= 0) return dry + above;
  return dry + above * Math.exp((-rate * (time_d - change_d)) / above);
}

function slopesOfTwoStages(
  { wet = 0, rate = 0, change_d = 0, dry = 0 }: ParameterValues<string>,
  time_d: number,
): ParameterValues<string> {
  if (time_d <= change_d) return { wet: 1, rate: -time_d, change_d: 0, dry: 0 };
  const above = wet - rate * change_d - dry;
  if (above <= 0) return { wet: 1, rate: -change_d, change_d: -rate, dry: 0 };
  const since = time_d - change_d;
  const left = Math.exp((-rate * since) / above);
  const byAbove = left * (1 + (rate * since) / above);
  return {
    wet: byAbove,
    rate: -change_d * byAbove - since * left,
    change_d: (-rate * left * rate * since) / above,
    dry: 1 - byAbove,
  };
}

function first({ moisture }: DryingCurve): number {
  return moisture[0] as number;
}

function span({ times_d }: DryingCurve): number {
  return times_d.at(-1) as number;
}

function fall(curve: DryingCurve): number {
  return first(curve) - (curve.moisture.at(-1) as number);
}

/** Moisture cannot fall below nothing; an index or excess that was read below zero sets its own floor. */
function least({ moisture }: DryingCurve): number {
  const { least: driest } = extremes(moisture);
  return driest >= 0 ? 0 : 2 * driest;
}

function belowLast(curve: DryingCurve, share: number): number {
  return Math.max(least(curve), (curve.moisture.at(-1) as number) - share * Math.max(fall(curve), 0));
}
