import { checkDryMass, checkFinite, checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import type { DryingRule } from './drying-rules.js';
import { type MassStillToLose, massStillToLose } from './mass-still-to-lose.js';
import type { OvenWeighing } from './oven-weighing.js';

export type { OvenWeighing } from './oven-weighing.js';

export interface DriedSample {
  /** Zero unless given: the masses are then net. */
  readonly container_g?: number;
  /** Gross mass before drying; needed where the rule is about the mass of water. */
  readonly wet_g?: number;
  readonly weighings: readonly OvenWeighing[];
}

/**
 * What was still in a sample at the weighing that completed its rule, in percentage points of moisture on the dry basis: what later weighings
 * lost, and what `massStillToLose` extrapolates beyond the last of them.
 */
export type StillInIt =
  | { readonly kind: 'extrapolated'; readonly moisture_pp: number }
  | Extract<MassStillToLose, { kind: 'not-known' }>;

export type ConstantMass =
  | {
      readonly kind: 'reached';
      readonly at_h: number;
      /** Gross mass at the weighing that completed the rule. */
      readonly dry_g: number;
      /** The largest change among the weighings that completed it, in percent of what the rule is about. */
      readonly largestChange_pct: number;
      readonly stillInIt: StillInIt;
    }
  | {
      readonly kind: 'not-reached';
      /** Between the last two weighings that are far enough apart; negative while the sample still loses mass. */
      readonly lastChange_pct: number;
      readonly tolerance_pct: number;
      /** Getting heavier: weighed warm, or taking up water from the air. */
      readonly gaining: boolean;
    }
  | {
      readonly kind: 'cannot-tell';
      readonly reason: 'too-few-weighings' | 'weighings-too-close';
      readonly needed: number;
    };

interface Chain {
  readonly last: OvenWeighing;
  readonly changes: readonly number[];
}

/**
 * Whether successive weighings show constant mass by a stated rule, at the first weighing that completes it. Weighings
 * that follow sooner than the rule's interval are looked at, but do not count as successive.
 *
 * @throws MoistureError `out-of-order` where times do not increase; `not-finite`; `out-of-range` where the sample weighs
 *   nothing, or lost no water under a rule about water
 * @example
 * const weighings = [{ time_h: 0, mass_g: 48.2 }, { time_h: 24, mass_g: 47.86 }, { time_h: 48, mass_g: 47.84 }, { time_h: 72, mass_g: 47.83 }];
 * constantMass({ weighings }, dryingRules['iso-12570']).kind // 'reached'
 */
export function constantMass(sample: DriedSample, rule: DryingRule): ConstantMass {
  checkSample(sample, rule);
  const { weighings } = sample;
  const chains = weighings.map((_, index) => chainEndingAt(index, sample, rule));
  const complete = chains.find(
    ({ changes }) =>
      changes.length === rule.weighings - 1 && changes.every((one) => Math.abs(one) <= rule.tolerance_pct),
  );
  if (complete !== undefined) return reached(complete, sample, rule);
  if (weighings.length < rule.weighings)
    return { kind: 'cannot-tell', reason: 'too-few-weighings', needed: rule.weighings };
  const longest = chains.reduce((most, { changes }) => Math.max(most, changes.length), 0);
  if (longest < rule.weighings - 1)
    return { kind: 'cannot-tell', reason: 'weighings-too-close', needed: rule.weighings };
  const lastChange_pct = chains.at(-1)?.changes[0] ?? 0;
  return {
    kind: 'not-reached',
    lastChange_pct,
    tolerance_pct: rule.tolerance_pct,
    gaining: lastChange_pct > rule.tolerance_pct,
  };
}

/** Back from one weighing, each time to the latest that is at least an interval earlier; newest change first. */
function chainEndingAt(index: number, sample: DriedSample, rule: DryingRule): Chain {
  const { weighings } = sample;
  const last = weighings[index] as OvenWeighing;
  const changes: number[] = [];
  let later = last;
  for (let back = index - 1; back >= 0 && changes.length < rule.weighings - 1; back--) {
    const earlier = weighings[back] as OvenWeighing;
    if (later.time_h - earlier.time_h < rule.interval_h) continue;
    changes.push((100 * (later.mass_g - earlier.mass_g)) / reference_g(later, sample, rule));
    later = earlier;
  }
  return { last, changes };
}

function reached({ last, changes }: Chain, sample: DriedSample, rule: DryingRule): ConstantMass {
  return {
    kind: 'reached',
    at_h: last.time_h,
    dry_g: last.mass_g,
    largestChange_pct: changes.reduce((most, change) => Math.max(most, Math.abs(change)), 0),
    stillInIt: stillInIt(last, sample, rule),
  };
}

function stillInIt(dry: OvenWeighing, sample: DriedSample, rule: DryingRule): StillInIt {
  const { container_g = 0, wet_g = dry.mass_g, weighings } = sample;
  const counting = weighingsApart(weighings, rule.interval_h);
  const rest = massStillToLose(counting);
  if (rest.kind === 'not-known') return rest;
  const lost_g = dry.mass_g - (counting.at(-1)?.mass_g ?? dry.mass_g) + rest.mass_g;
  // ∂u/∂m_d = −m_w/m_d²
  const slope = (wet_g - container_g) / (dry.mass_g - container_g) ** 2;
  return { kind: 'extrapolated', moisture_pp: 100 * lost_g * slope };
}

/** Back from the last weighing, those at least an interval apart; in order of time. */
function weighingsApart(weighings: readonly OvenWeighing[], interval_h: number): readonly OvenWeighing[] {
  const kept: OvenWeighing[] = [];
  for (const weighing of weighings.toReversed()) {
    const next = kept.at(-1);
    if (next === undefined || next.time_h - weighing.time_h >= interval_h) kept.push(weighing);
  }
  return kept.toReversed();
}

/** Net mass that the tolerance is a percentage of. */
function reference_g(weighing: OvenWeighing, { container_g = 0, wet_g }: DriedSample, rule: DryingRule): number {
  switch (rule.of) {
    case 'sample mass':
      return weighing.mass_g - container_g;
    case 'water mass':
      return (wet_g ?? Number.NaN) - weighing.mass_g;
  }
}

function checkSample({ weighings, container_g = 0, wet_g }: DriedSample, rule: DryingRule): void {
  const where = 'constantMass';
  checkPositive(where, 'interval of the rule', rule.interval_h, 'h');
  checkPositive(where, 'tolerance of the rule', rule.tolerance_pct, '%');
  if (!(Number.isInteger(rule.weighings) && rule.weighings >= 2))
    throw new MoistureError(where, 'out-of-range', `needs a rule of at least 2 weighings, got ${rule.weighings}`);
  for (const { time_h, mass_g } of weighings) {
    checkFinite(where, 'time of weighing', time_h);
    checkDryMass(where, container_g, mass_g);
    if (rule.of === 'water mass' && !(wet_g !== undefined && wet_g > mass_g && Number.isFinite(wet_g)))
      throw new MoistureError(
        where,
        'out-of-range',
        `needs a wet mass above every weighing for a rule about the mass of water, got ${wet_g ?? 'none'} and ${mass_g} g`,
      );
  }
  const late = weighings.findIndex((one, index) => index > 0 && one.time_h <= (weighings[index - 1]?.time_h ?? 0));
  if (late > 0)
    throw new MoistureError(
      where,
      'out-of-order',
      `needs weighings in order of time, got ${weighings[late]?.time_h} h`,
    );
}
