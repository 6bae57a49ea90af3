import type { LeftOneOut, RoleBlinding } from '../../analysis/index.js';
import { reasonInWords } from '../../labels/index.js';
import type { Judging } from '../../opinion/judging/judging.js';
import type { Interval } from '../../statistics/index.js';

/** The numbers behind the threats: who guessed, what would turn the verdict, who was left out, what was lost. */
export function checksJson({ turning, blinding, knowledge, leaveOneOut, missing, fall, confounding }: Judging) {
  return {
    turning:
      turning === undefined ? null : { flattered: turning.flattered.map(copy), hidden: turning.hidden.map(copy) },
    blinding: blinding.map(roleJson),
    knowledge: { counts: { ...knowledge.counts }, movesBy: knowledge.movesBy ?? null },
    leaveOneOut: leaveOneOut.map(leftJson),
    missing:
      missing === undefined
        ? null
        : { walls: { ...missing.missing }, bounds: { ...missing.bounds }, movesBy: missing.movesBy ?? null },
    expectedFall: fall === undefined || 'code' in fall ? null : { ...fall },
    confounding:
      confounding === undefined ? null : { forEstimate: confounding.forEstimate, forLimit: confounding.forLimit },
  };
}

function copy({ shift, becomes }: { readonly shift: number; readonly becomes: string }) {
  return { shift, becomes };
}

function roleJson({ role, people, byPerson, guesses, bang, james, pValue, late }: RoleBlinding) {
  return {
    role,
    people,
    guesses: { treated: { ...guesses.treated }, untreated: { ...guesses.untreated } },
    bang: { treated: indexJson(bang.treated), untreated: indexJson(bang.untreated) },
    james: indexJson(james),
    pValue,
    late,
    byPerson: byPerson.map((one) => ({ ...one })),
  };
}

function indexJson(index: { readonly estimate: number; readonly interval: Interval } | undefined) {
  return index === undefined ? null : { estimate: index.estimate, interval: { ...index.interval } };
}

function leftJson({ of, left, answer }: LeftOneOut) {
  if (answer.kind === 'not-estimated') return { of, left, reason: reasonInWords(answer.notEstimated.reason) };
  const { estimate, interval } = answer.estimate;
  return { of, left, estimate, interval: interval === undefined ? null : { ...interval } };
}
