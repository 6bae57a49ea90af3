import type { CoreItem } from './threats/core-list.js';
import type { Evidence, Seriousness } from './verdict.js';

interface EvidenceRule {
  readonly evidence: Evidence;
  /** Most threats of each seriousness that still earn this word. */
  readonly fatal: number;
  readonly serious: number;
  readonly minor: number;
}

/**
 * The rule from threats to evidence: the first row whose three limits all hold. Our own rule, no source: one serious threat
 * leaves an opinion that a fair reader can still use; two leave it open to more than one other story. Of the minor ones there may be
 * three, for almost no plan is sealed, and that is one of them.
 */
export const evidenceRules: readonly EvidenceRule[] = [
  { evidence: 'firm', fatal: 0, serious: 0, minor: 3 },
  { evidence: 'fair', fatal: 0, serious: 0, minor: Number.POSITIVE_INFINITY },
  { evidence: 'fair', fatal: 0, serious: 1, minor: 3 },
  {
    evidence: 'shaky',
    fatal: 0,
    serious: Number.POSITIVE_INFINITY,
    minor: Number.POSITIVE_INFINITY,
  },
  {
    evidence: 'none',
    fatal: Number.POSITIVE_INFINITY,
    serious: Number.POSITIVE_INFINITY,
    minor: Number.POSITIVE_INFINITY,
  },
];

const firmestFirst: readonly Evidence[] = ['firm', 'fair', 'shaky', 'none'];

/** What threats can be that are one thing seen from several sides: an answer that depends on little, a plan that nobody or not everybody kept to. */
export type CountsWith = 'fragility' | 'lock';

/** What the rule needs of a threat: its weight, and the core items that it rests on. */
export interface WeighedThreat {
  /** Absent where it weighs nothing. */
  readonly seriousness?: Seriousness;
  readonly restsOn?: readonly CoreItem[];
  /** Threats that are one thing seen from several sides count once. */
  readonly countsWith?: CountsWith;
  /** However few and light the others are, the evidence is no firmer than this. */
  readonly evidenceAtBest?: Evidence;
}

/** How many threats of each seriousness count. */
export type ThreatCount = Readonly<Record<Seriousness, number>>;

/**
 * How firmly the trial's evidence stands, from its threats alone and whatever the result: by the rule, and no firmer than any
 * threat allows at best.
 *
 * @example evidenceFrom([]) // 'firm'
 */
export function evidenceFrom(threats: readonly WeighedThreat[]): Evidence {
  const count = countThreats(threats);
  const rule = evidenceRules.find(
    (row) => count.fatal <= row.fatal && count.serious <= row.serious && count.minor <= row.minor,
  );
  const limits = threats.flatMap(({ evidenceAtBest }) => evidenceAtBest ?? []);
  const ranks = [rule?.evidence ?? 'none', ...limits].map((evidence) => firmestFirst.indexOf(evidence));
  return firmestFirst[Math.max(...ranks)] ?? 'none';
}

/**
 * Threats counted so that those which rest on the same core statement count once, as the most serious of them: the largest number
 * of threats no two of which share a statement, or are one thing seen from several sides; first of the fatal, then of the serious,
 * then of the minor ones. So the order of the list does not matter, and one threat more never counts for less.
 *
 * @example countThreats([{ seriousness: 'serious', restsOn: ['air'] }, { seriousness: 'minor', restsOn: ['air'] }]) // { fatal: 0, serious: 1, minor: 0 }
 */
export function countThreats(threats: readonly WeighedThreat[]): ThreatCount {
  const groups = (seriousness: Seriousness) =>
    threats.filter((threat) => threat.seriousness === seriousness).map(groupsOf);
  const [fatal = 0, serious = 0, minor = 0] = largestCounts([groups('fatal'), groups('serious'), groups('minor')]);
  return { fatal, serious, minor };
}

type Groups = readonly string[];

function groupsOf({ restsOn = [], countsWith }: WeighedThreat): Groups {
  return countsWith === undefined ? restsOn : [...restsOn, countsWith];
}

/** For each list in turn the most that can count beside those of the lists before it. */
function largestCounts(lists: readonly (readonly Groups[])[], counted: ReadonlySet<string> = new Set()): number[] {
  const [own, ...rest] = lists;
  if (own === undefined) return [];
  const free = own.filter((groups) => groups.every((group) => !counted.has(group)));
  const alone = free.filter(({ length }) => length === 0).length;
  // One that rests on a single statement takes the place of any other that rests on it, so that it can always count.
  const single = new Set(free.filter(({ length }) => length === 1).flat());
  const several = free.filter((groups) => groups.length > 1 && groups.every((group) => !single.has(group)));
  const choices = disjointChoices(several).map((chosen) => {
    const taken = new Set([...counted, ...single, ...chosen.flat()]);
    return [alone + single.size + chosen.length, ...largestCounts(rest, taken)];
  });
  return choices.reduce((best, one) => (isLarger(one, best) ? one : best));
}

/** Every selection in which no two share a group; the empty one is among them. */
function disjointChoices(all: readonly Groups[]): readonly (readonly Groups[])[] {
  const [first, ...rest] = all;
  if (first === undefined) return [[]];
  const without = disjointChoices(rest);
  const beside = rest.filter((groups) => !groups.some((group) => first.includes(group)));
  return [...without, ...disjointChoices(beside).map((chosen) => [first, ...chosen])];
}

function isLarger(one: readonly number[], other: readonly number[]): boolean {
  const at = one.findIndex((value, index) => value !== other[index]);
  return at >= 0 && (one[at] ?? 0) > (other[at] ?? 0);
}
