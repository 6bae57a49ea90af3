import type { Evidence, Weakness } from './opinion.js';

interface EvidenceRule {
  readonly evidence: Evidence;
  /** Most weaknesses of each seriousness that still earn this word. */
  readonly fatal: number;
  readonly serious: number;
  readonly minor: number;
}

/**
 * The rule from weaknesses to evidence: the first row whose three limits all hold.
 * One serious weakness leaves an opinion that a fair reader can still use; two leave it open to more than one other story.
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

/**
 * How firmly the trial's evidence stands, from its weaknesses alone and whatever the result: by the rule, and no firmer than
 * any weakness allows at best.
 *
 * @example evidenceFrom([]) // 'firm'
 */
export function evidenceFrom(weaknesses: readonly Weakness[]): Evidence {
  const count = (seriousness: Weakness['seriousness']) =>
    weaknesses.filter((weakness) => weakness.seriousness === seriousness).length;
  const [fatal, serious, minor] = [count('fatal'), count('serious'), count('minor')];
  const rule = evidenceRules.find((row) => fatal <= row.fatal && serious <= row.serious && minor <= row.minor);
  const limits = weaknesses.flatMap(({ evidenceAtBest }) => evidenceAtBest ?? []);
  const ranks = [rule?.evidence ?? 'none', ...limits].map((evidence) => firmestFirst.indexOf(evidence));
  return firmestFirst[Math.max(...ranks)] ?? 'none';
}
