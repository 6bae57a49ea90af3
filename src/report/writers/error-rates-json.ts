import type { QuotedRates, RateDifference } from '../../planning/error-rates/nearest-rates.js';

/** The rates of the nearest simulated design, for `opinion.json`. */
export function errorRatesJson({ design, rows, evidence, differences }: QuotedRates) {
  return {
    design: { ...design },
    rows: rows.map(({ truth, verdicts: { trials, codes, intervals, held, meanHalfWidth } }) => ({
      ...{ truth, trials, verdicts: counts(codes), intervals, held, meanHalfWidth },
    })),
    evidence: { trials: evidence.trials, words: counts(evidence.words) },
    differences: differences.map(differenceJson),
  };
}

function differenceJson(one: RateDifference) {
  switch (one.kind) {
    case 'units':
      return { kind: one.kind, own: { ...one.own }, design: { ...one.design } };
    case 'layout':
    case 'precision':
      return { kind: one.kind, own: one.own, design: one.design };
    case 'trouble':
      return { kind: one.kind, trouble: one.trouble, of: one.of };
    case 'not-randomised':
      return { kind: one.kind };
  }
}

/** Only what came out at least once. */
function counts(of: Readonly<Partial<Record<string, number>>>): { readonly [name: string]: number } {
  return Object.fromEntries(
    Object.entries(of).flatMap(([name, count]) => (count === undefined ? [] : [[name, count]])),
  );
}
