import type { Evidence, Seriousness } from './opinion.js';
import type { CoreItem } from './threats/core-list.js';

interface EvidenceRule {
  readonly evidence: Evidence;
  /** Most threats of each seriousness that still earn this word. */
  readonly fatal: number;
  readonly serious: number;
  readonly minor: number;
}

/**
 * The rule from threats to evidence: the first row whose three limits all hold. Our own rule, no source: one serious threat
 * leaves an opinion that a fair reader can still use; two leave it open to more than one other story.
 */
export const evidenceRules: readonly EvidenceRule[] = [
  { evidence: 'firm', fatal: 0, serious: 0, minor: 2 },
  { evidence: 'fair', fatal: 0, serious: 0, minor: Number.POSITIVE_INFINITY },
  { evidence: 'fair', fatal: 0, serious: 1, minor: 2 },
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

/** What the rule needs of a threat: its weight, and the core items that it rests on. */
export interface WeighedThreat {
  /** Absent where it weighs nothing. */
  readonly seriousness?: Seriousness;
  readonly restsOn?: readonly CoreItem[];
  /** Threats that are one thing seen from several sides count once. */
  readonly countsWith?: 'fragility';
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
 * Threats counted so that those which rest on the same core statement count once, as the most serious of them. A threat that
 * rests on several statements counts only where none of them counts at least as much already. So does what is one thing seen from
 * several sides.
 *
 * @example countThreats([{ seriousness: 'serious', restsOn: ['air'] }, { seriousness: 'minor', restsOn: ['air'] }]) // { fatal: 0, serious: 1, minor: 0 }
 */
export function countThreats(threats: readonly WeighedThreat[]): ThreatCount {
  const count = { fatal: 0, serious: 0, minor: 0 };
  const counted = new Set<string>();
  for (const seriousness of ['fatal', 'serious', 'minor'] as const) {
    const own = threats.filter((threat) => threat.seriousness === seriousness);
    // Those in fewest groups first: what they count, the others need not count again.
    for (const groups of own.map(groupsOf).sort((one, other) => one.length - other.length)) {
      if (groups.some((group) => counted.has(group))) continue;
      count[seriousness] += 1;
      for (const group of groups) counted.add(group);
    }
  }
  return count;
}

function groupsOf({ restsOn = [], countsWith }: WeighedThreat): readonly string[] {
  return countsWith === undefined ? restsOn : [...restsOn, countsWith];
}
