import type { DifferenceMethod, Method } from '../analysis/index.js';

/** Where a method was published, as far as it has one source; the functions of `statistics/` cite the details. */
export function sourceOf(method: Method): string | undefined {
  return method.kind === 'wall-values' ? sources[method.difference] : sources[method.kind];
}

const student = 'Student 1908, Biometrika 6:1–25';
const leastSquares = 'Fisher 1925, Statistical Methods for Research Workers (from memory)';
const fieller = 'Fieller 1954, J. R. Stat. Soc. B 16:175–185 (from memory)';
const autocorrelation = 'Cochrane and Orcutt 1949, J. Am. Stat. Assoc. 44:32–61 (from memory)';
const kenwardRoger = 'Kenward and Roger 1997, Biometrics 53:983–997 (from memory)';
const hedges = 'Hedges 1981, J. Educ. Stat. 6:107–128 (from memory)';

const sources: Readonly<Record<Exclude<Method['kind'], 'wall-values'> | DifferenceMethod, string | undefined>> = {
  welch: 'Welch 1947, Biometrika 34:28–35',
  'paired-blocks': student,
  'block-model': leastSquares,
  'baseline-adjusted': 'Vickers and Altman 2001, BMJ 323:1123–1124 (from memory)',
  randomisation: 'Fisher 1935, The Design of Experiments (from memory)',
  bootstrap: 'Efron and Tibshirani 1993, An Introduction to the Bootstrap (from memory)',
  'cluster-robust': 'Bell and McCaffrey 2002, Survey Methodology 28:169–181 (from memory)',
  'mixed-model': kenwardRoger,
  'hedges-g': hedges,
  'glass-delta': 'Glass 1976, Educ. Res. 5:3–8 (from memory)',
  'log-response-ratio': 'Hedges, Gurevitch and Curtis 1999, Ecology 80:1150–1156 (from memory)',
  'probability-of-superiority': 'Newcombe 2006, Stat. Med. 25:559–573 (from memory)',
  adjusted: 'Satterthwaite 1946, Biometrics Bull. 2:110–114 (from memory)',
  'rate-ratio': 'Lindstrom and Bates 1990, Biometrics 46:673–687 (from memory)',
  'paired-series': autocorrelation,
  'paired-series-fitted': kenwardRoger,
  'paired-series-robust': 'Newey and West 1987, Econometrica 55:703–708 (from memory)',
  'paired-series-trend': autocorrelation,
  'paired-series-weather': autocorrelation,
  'paired-series-pooled': student,
  'rank-shift': 'Hodges and Lehmann 1963, Ann. Math. Stat. 34:598–611 (from memory)',
  neighbours: 'Welch 1947, Biometrika 34:28–35',
  fieller,
  'mean-after': student,
  'stand-in-slope': leastSquares,
  'share-explained': 'Freedman, Graubard and Schatzkin 1992, Stat. Med. 11:167–178 (from memory)',
  calibrated: undefined,
  'below-likelihood': 'Helsel 2012, Statistics for Censored Environmental Data (from memory)',
  'below-product-limit': 'Kaplan and Meier 1958, J. Am. Stat. Assoc. 53:457–481 (from memory)',
};
