import { mutationsOf } from '../mutation.mjs';

const of = (name) => `statistics/${name}.test.ts`;

const comparison = [
  ...mutationsOf('src/statistics/estimation/comparison/welch.ts', of('estimation/comparison/comparison'), [
    ['(1 - share) ** 2 / (second.n - 1)', '(1 - share) ** 2 / second.n'],
    ['Math.sqrt(ofFirst + ofSecond)', 'Math.sqrt(ofFirst) + Math.sqrt(ofSecond)'],
    ['first.mean - second.mean', 'second.mean - first.mean'],
  ]),
  ...mutationsOf('src/statistics/estimation/comparison/paired.ts', of('estimation/comparison/comparison'), [
    ['degreesOfFreedom: n - 1', 'degreesOfFreedom: n'],
    ['Math.sqrt(variance / n)', 'Math.sqrt(variance / (n - 1))'],
  ]),
  ...mutationsOf('src/statistics/estimation/comparison/pooled.ts', of('estimation/comparison/comparison'), [
    ['1 / x.length + 1 / y.length', '1 / (x.length + y.length)'],
  ]),
  ...mutationsOf('src/statistics/estimation/comparison/blocked.ts', of('estimation/comparison/comparison'), [
    ['(x.length * y.length) / (x.length + y.length)', 'x.length + y.length'],
  ]),
  ...mutationsOf('src/statistics/estimation/comparison/hodges-lehmann.ts', [of('estimation/comparison/robust-comparison'), 'statistics/numbers-by-hand.test.ts'], [
    ['(x.length * y.length * (x.length + y.length + 1)) / 12', '(x.length * y.length * (x.length + y.length)) / 12'],
    ['(n * (n + 1) * (2 * n + 1)) / 24', '(n * (n + 1) * (2 * n)) / 24'],
    ['kthSmallest(differences, cut - 1)', 'kthSmallest(differences, cut)'],
  ]),
  ...mutationsOf('src/statistics/estimation/comparison/trimmed.ts', of('estimation/comparison/robust-comparison'), [
    ['(kept.length * (kept.length - 1))', '(kept.length * kept.length)'],
  ]),
  ...mutationsOf('src/statistics/estimation/comparison/rank-tests.ts', of('estimation/comparison/rank-tests'), [
    ['(n * (n + 1)) / 4,', '(n * n) / 4,'],
  ]),
  ...mutationsOf('src/statistics/estimation/comparison/fieller.ts', [of('estimation/comparison/comparison'), of('estimation/effect-size/effect-size'), 'statistics/estimation/comparison/robust-comparison.test.ts'], [
    ['lower: (middle - root) / leading', 'lower: (middle + root) / leading'],
  ]),
];

const agreement = [
  ...mutationsOf('src/statistics/estimation/agreement/concordance.ts', of('estimation/calibration-and-censoring/against-r'), [
    ['(n - 2);', '(n - 1);'],
    ['studentT(n - 1)', 'studentT(n - 2)'],
  ]),
  ...mutationsOf('src/statistics/estimation/agreement/limits-of-repeated.ts', [of('estimation/calibration-and-censoring/against-r'), 'statistics/numbers-by-hand.test.ts'], [
    ['if (things.length < 3)', 'if (things.length < 2)'],
  ]),
  ...mutationsOf('src/statistics/estimation/association/correlation.ts', of('estimation/association/correlation'), [
    ['1 / Math.sqrt(n - 3)', '1 / Math.sqrt(n)'],
    ['2 * studentT(n - 2)', '2 * studentT(n - 1)'],
    ['(1 + (r * r) / 2)', '(1 + r * r)'],
  ]),
  ...mutationsOf('src/statistics/estimation/analysis-of-variance/one-way.ts', of('estimation/analysis-of-variance/one-way'), [
    ['betweenSum / (betweenSum + withinSum)', 'betweenSum / withinSum'],
  ]),
  ...mutationsOf('src/statistics/estimation/blinding/bang-index.ts', of('estimation/blinding/blinding'), [
    ['Math.max(-1, estimate - reach)', 'Math.max(0, estimate - reach)'],
  ]),
  ...mutationsOf('src/statistics/estimation/blinding/james-index.ts', of('estimation/blinding/blinding'), [
    ['(guessed ** 2 * wrong) / (2 * chance)', '(guessed ** 2 * wrong) / chance'],
  ]),
];

const counts = [
  ...mutationsOf('src/statistics/estimation/counts/fisher-exact.ts', of('estimation/counts/counts'), [
    ['probability <= observed * tie', 'probability < observed'],
    ['probabilities.slice(0, at + 1)', 'probabilities.slice(0, at)'],
  ]),
  ...mutationsOf('src/statistics/estimation/counts/proportion-interval.ts', of('estimation/counts/counts'), [
    ['beta(having, of - having + 1)', 'beta(having, of - having)'],
    ['beta(having + 1, of - having)', 'beta(having, of - having)'],
  ]),
  ...mutationsOf('src/statistics/estimation/counts/chi-square-tests.ts', of('estimation/counts/counts'), [
    ['(kept.length - 1) * (used.length - 1)', 'kept.length * used.length'],
    ['counts.length - 1, expected', 'counts.length, expected'],
  ]),
];

const decisions = [
  ...mutationsOf('src/statistics/estimation/decisions/adjusted-p-values.ts', of('estimation/decisions/decisions'), [
    ['(ascending.length - rank) * p', 'ascending.length * p'],
  ]),
  ...mutationsOf('src/statistics/estimation/decisions/equivalence.ts', of('estimation/decisions/decisions'), [
    ['Math.max(againstLower, againstUpper)', 'Math.min(againstLower, againstUpper)'],
  ]),
  ...mutationsOf('src/statistics/estimation/decisions/fixed-sequence.ts', of('estimation/decisions/decisions'), [
    ["pValue <= alpha ? 'rejected'", "pValue < alpha ? 'rejected'"],
  ]),
  ...mutationsOf('src/statistics/estimation/decisions/power-of-t.ts', of('estimation/decisions/decisions'), [
    ['distribution.upperTail(critical) + distribution.lowerTail(-critical)', 'distribution.upperTail(critical)'],
  ]),
];

const effects = [
  ...mutationsOf('src/statistics/estimation/effect-size/hedges-g.ts', of('estimation/effect-size/effect-size'), [
    ['estimate: ratio * correction', 'estimate: ratio'],
  ]),
  ...mutationsOf('src/statistics/estimation/effect-size/glass-delta.ts', of('estimation/effect-size/effect-size'), [
    ['if (!(untreated >= 2))', 'if (!(untreated >= 3))'],
  ]),
  ...mutationsOf('src/statistics/estimation/effect-size/probability-of-superiority.ts', of('estimation/effect-size/effect-size'), [
    ['one === other ? 1 : 0', 'one === other ? 2 : 0'],
    ['/ (nx * ny)', '/ (nx + ny)'],
  ]),
  ...mutationsOf('src/statistics/estimation/effect-size/log-response-ratio.ts', of('estimation/effect-size/effect-size'), [
    ['variance / n / mean / mean', 'variance / n / mean'],
  ]),
  ...mutationsOf('src/statistics/estimation/bayes/posterior-of-difference.ts', of('estimation/bayes/posterior-of-difference'), [
    ['1 - distribution.lowerTail(-margin) - distribution.upperTail(margin)', '1 - distribution.upperTail(margin)'],
    ['degreesOfFreedom > 2 && { standardDeviation', 'degreesOfFreedom > 1 && { standardDeviation'],
  ]),
];

const distributions = [
  ...mutationsOf('src/statistics/distributions/student-t.ts', of('distributions/student-t'), [
    ['0.5 * (degreesOfFreedom + 1) * logarithm', '0.5 * degreesOfFreedom * logarithm'],
    ['isCentral(t) ? 0.5 - central(t)', 'isCentral(t) ? 0.5 + central(t)'],
  ]),
  ...mutationsOf('src/statistics/distributions/binomial.ts', of('distributions/reference'), [
    ['betaTails(k + 1, trials - k).above(', 'betaTails(k, trials - k).above('],
  ]),
  ...mutationsOf('src/statistics/distributions/chi-square.ts', of('distributions/reference'), [
    ['degreesOfFreedom / 2, 0.5', 'degreesOfFreedom / 2, 0.25'],
  ]),
  ...mutationsOf('src/statistics/distributions/studentised-range.ts', [of('distributions/reference'), 'statistics/numbers-by-hand.test.ts'], [
    ['f.upperTail((q * q) / 2)', 'f.upperTail(q * q)'],
  ]),
  ...mutationsOf('src/statistics/distributions/symmetric-distribution.ts', of('distributions/student-t'), [
    ['q < 0.5 ? outerQuantile(q) : -outerQuantile(1 - q)', 'q < 0.5 ? outerQuantile(q) : outerQuantile(1 - q)'],
  ]),
];

const survival = [
  ...mutationsOf('src/statistics/estimation/censored/left-censored.ts', of('estimation/calibration-and-censoring/laws'), [
    ['if (measured.length < 2)', 'if (measured.length < 1)'],
  ]),
  ...mutationsOf('src/statistics/estimation/censored/censored-means.ts', [of('estimation/calibration-and-censoring/laws'), 'statistics/numbers-by-hand.test.ts'], [
    ['limits.length / values.length', 'limits.length / measured.length'],
  ]),
  ...mutationsOf('src/statistics/estimation/censored/normal-below.ts', of('estimation/calibration-and-censoring/against-r'), [
    ['hazard * (z + hazard) };', 'hazard * (z - hazard) };'],
  ]),
];

export const statisticsList = [...comparison, ...agreement, ...counts, ...decisions, ...effects, ...distributions, ...survival];
