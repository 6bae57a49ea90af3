import type { Estimate } from '../../analysis/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { standardDeviation } from '../../statistics/index.js';
import type { SimulatedLayout } from '../simulated-wall/simulated-design.js';
import type { EvidenceCounts, VerdictCounts } from './count-verdicts.js';
import { knownRates } from './known-rates.js';
import { type RateDesign, type RateTrouble, rateDesigns } from './rate-designs.js';
import type { RateRow } from './rate-row.js';

/** One way in which a trial is not like the design whose rates are quoted for it. */
export type RateDifference =
  | { readonly kind: 'layout'; readonly own: SimulatedLayout; readonly design: SimulatedLayout }
  | { readonly kind: 'units'; readonly own: UnitsOfArms; readonly design: UnitsOfArms }
  /** Half-widths of the intervals, in margins: of the trial, and on average of the design with no effect. */
  | { readonly kind: 'precision'; readonly own: number; readonly design: number }
  /** What is wrong with one of them and not with the other. */
  | { readonly kind: 'trouble'; readonly trouble: RateTrouble; readonly of: 'trial' | 'design' }
  | { readonly kind: 'not-randomised' };

/** Walls, or what counts as one, on each side. */
export interface UnitsOfArms {
  readonly treated: number;
  readonly untreated: number;
}

/** How often each verdict came out in the design nearest to a trial. */
export interface QuotedRates {
  readonly design: Pick<RateDesign, 'id' | 'label'>;
  readonly rows: readonly { readonly truth: number; readonly verdicts: VerdictCounts }[];
  /** Over all truths together. */
  readonly evidence: EvidenceCounts;
  readonly differences: readonly RateDifference[];
}

/** A trial by what distinguishes the designs. */
interface Described {
  readonly layout: SimulatedLayout;
  readonly units: UnitsOfArms;
  /** Half-width of the interval, in margins. */
  readonly precision: number;
  readonly troubles: readonly RateTrouble[];
}

/**
 * The rates of the simulated design that is nearest to a trial, and in what they differ; nothing of a trial without an interval or a
 * margin. A rate is that of the simulated walls, not of the trial itself.
 *
 * @example nearestRates(opinion) // undefined
 */
export function nearestRates(opinion: Opinion): QuotedRates | undefined {
  const own = describedTrial(opinion);
  if (own === undefined) return undefined;
  const described = rateDesigns.flatMap((design) => {
    const rows = knownRates.filter((row) => row.design === design.id);
    const without = rows.find(({ truth }) => truth === 0);
    return without === undefined ? [] : [{ design, rows, of: describedDesign(design, without) }];
  });
  const nearest = described.toSorted((one, other) => distance(own, one.of) - distance(own, other.of))[0];
  if (nearest === undefined) return undefined;
  const { design, rows, of } = nearest;
  const isChosen = opinion.protocol.allocation.method === 'chosen';
  return {
    design: { id: design.id, label: design.label },
    rows: rows.map(({ truth, verdicts }) => ({ truth, verdicts })),
    evidence: pooledEvidence(rows),
    differences: [...(isChosen ? [{ kind: 'not-randomised' } as const] : []), ...differencesBetween(own, of)],
  };
}

function describedTrial(opinion: Opinion): Described | undefined {
  const { primary, protocol } = opinion;
  if (primary.kind === 'not-estimated' || protocol.margin === undefined) return undefined;
  const { interval, walls } = primary.estimate;
  return {
    layout: layoutOf(primary.method, opinion.units.kind),
    units: { treated: walls.treated, untreated: walls.untreated },
    precision: (interval.upper - interval.lower) / 2 / protocol.margin,
    troubles: troublesOf(opinion, primary.estimate),
  };
}

function layoutOf(
  method: Extract<Opinion['primary'], { kind: 'estimated' }>['method'],
  unit: Opinion['units']['kind'],
): SimulatedLayout {
  switch (method) {
    case 'paired-blocks':
      return 'pairs';
    case 'block-model':
      return 'blocks-of-four';
    case 'welch':
      return unit === 'site' ? 'houses' : 'complete';
    case 'paired-series':
      return 'complete';
  }
}

const lostShare = 0.1;
const unlikeRatio = 1.5;

/** Each found in the opinion itself; what nobody can see, such as readers who hide what they knew, is never among them. */
function troublesOf(
  { primary, threats, walls, leftOutWalls }: Opinion,
  { walls: units }: Estimate,
): readonly RateTrouble[] {
  const isFound = (code: string) => threats.some((threat) => threat.code === code && threat.finding === 'found');
  const isSeries = primary.kind === 'estimated' && primary.method === 'paired-series';
  const lost = leftOutWalls.length / Math.max(1, leftOutWalls.length + walls.length);
  const spreads = ['treated', 'untreated'].map((side) =>
    walls.flatMap((wall) => (wall.side === side ? [wall.change] : [])),
  );
  const isUnlike =
    Math.min(units.treated, units.untreated) >= 4 &&
    spreads.every(({ length }) => length > 1) &&
    ratioOf(spreads) >= unlikeRatio;
  return [
    ...(isSeries ? (['two-walls'] as const) : []),
    ...(isFound('readers-knew') ? (['readers-say-they-knew'] as const) : []),
    ...(lost >= lostShare ? (['drop-out'] as const) : []),
    ...(isUnlike ? (['unlike-spread'] as const) : []),
  ];
}

function ratioOf(spreads: readonly (readonly number[])[]): number {
  const [one = 0, other = 0] = spreads.map((values) => standardDeviation(values));
  return Math.max(one, other) / Math.max(Number.MIN_VALUE, Math.min(one, other));
}

function describedDesign({ design, trouble }: RateDesign, { margin, verdicts }: RateRow): Described {
  const each = design.layout === 'houses' ? design.wallsPerHouse : 1;
  return {
    layout: design.layout,
    units: { treated: design.treated / each, untreated: design.untreated / each },
    precision: verdicts.meanHalfWidth / margin,
    troubles: trouble === 'nothing' ? [] : [trouble],
  };
}

/**
 * Our convention: another layout or a trouble that only one of them has weighs as much as twice or half the walls; what is told by
 * precision beyond the number of walls weighs half as much.
 */
function distance(own: Described, design: Described): number {
  const total = ({ units }: Described) => units.treated + units.untreated;
  const balance = ({ units }: Described) => units.treated / units.untreated;
  const apart = (one: number, other: number) => Math.abs(Math.log2(one / other));
  const unshared = own.troubles.filter((one) => !design.troubles.includes(one)).length;
  // A design is not taken for a trouble that the trial does not show.
  const added = design.troubles.filter((one) => !own.troubles.includes(one)).length;
  return (
    Number(own.layout !== design.layout) +
    apart(total(own), total(design)) +
    apart(balance(own), balance(design)) +
    apart(own.precision, design.precision) / 2 +
    unshared +
    100 * added
  );
}

/** Intervals that are longer or shorter by less than a quarter are called alike; our convention. */
const precisionAlike = 1.25;

function differencesBetween(own: Described, design: Described): readonly RateDifference[] {
  const ratio = own.precision / design.precision;
  const isOtherUnits = own.units.treated !== design.units.treated || own.units.untreated !== design.units.untreated;
  const trouble = (of: 'trial' | 'design', some: readonly RateTrouble[], others: readonly RateTrouble[]) =>
    some.filter((one) => !others.includes(one)).map((one) => ({ kind: 'trouble', trouble: one, of }) as const);
  return [
    ...(own.layout === design.layout ? [] : [{ kind: 'layout', own: own.layout, design: design.layout } as const]),
    ...(isOtherUnits ? [{ kind: 'units', own: own.units, design: design.units } as const] : []),
    ...(ratio > precisionAlike || ratio < 1 / precisionAlike
      ? [{ kind: 'precision', own: own.precision, design: design.precision } as const]
      : []),
    ...trouble('trial', own.troubles, design.troubles),
    ...trouble('design', design.troubles, own.troubles),
  ];
}

function pooledEvidence(rows: readonly RateRow[]): EvidenceCounts {
  const words: { -readonly [word in keyof EvidenceCounts['words']]: number } = {};
  for (const { evidence } of rows)
    for (const [word, count] of Object.entries(evidence.words) as [keyof EvidenceCounts['words'], number][])
      words[word] = (words[word] ?? 0) + count;
  return { trials: rows.reduce((sum, { evidence }) => sum + evidence.trials, 0), words };
}
