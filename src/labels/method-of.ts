import { type DifferenceMethod, type Estimate, type Method, mostDaysApart } from '../analysis/index.js';
import { formatNumber } from '../words/format-number.js';
import { unitWords } from './unit-words.js';

/** How an estimate was made, in one sentence without its full stop. */
export function methodOf(estimate: Estimate): string {
  const { method } = estimate;
  switch (method.kind) {
    case 'welch': {
      const { many, value } = unitWords(method.compared);
      return `mean ${value} of treated ${many} less mean ${value} of untreated ${many}, interval by Welch’s t`;
    }
    case 'paired-blocks': {
      const { one, value } = unitWords(method.compared);
      return `mean over pairs of treated ${one}’s ${value} less its partner’s, interval by Student’s t`;
    }
    case 'block-model':
      return `least squares of ${unitWords(method.compared).value} on arm and block, interval by Student’s t`;
    case 'baseline-adjusted':
      return `least squares of after on arm, before${andBlock(method)}, interval by Student’s t`;
    case 'randomisation':
      return `${allocationsOf(method)}${shiftsOf(estimate, method)}`;
    case 'bootstrap': {
      const { limits, draws, drawn, compared } = method;
      const kind = limits === 'bca' ? 'BCa bootstrap corrected for few walls,' : 'studentised bootstrap,';
      return `${kind} ${formatNumber(draws, 0)} times resampling whole ${drawn === 'pairs' ? 'pairs' : unitWords(compared).many}`;
    }
    case 'cluster-robust': {
      const { one, values } = unitWords(method.compared);
      const cluster = method.cluster === 'pair' ? 'pair' : one;
      return `least squares of the stations’ ${values} on arm${andBlock(method)}, cluster-robust error CR2 by ${cluster}, Bell and McCaffrey’s degrees of freedom`;
    }
    case 'mixed-model': {
      const { many, values } = unitWords(method.compared);
      return `linear mixed model of the stations’ ${values}, stations in ${method.hasWallsInside ? 'walls in ' : ''}${many}${method.isBlocked ? ' in blocks' : ''}, restricted maximum likelihood, Kenward and Roger’s degrees of freedom`;
    }
    case 'hedges-g':
      return `primary difference over the pooled standard deviation of ${unitWords(method.compared).values}, with the exact small-sample correction; limits from the noncentral t`;
    case 'glass-delta': {
      const { many, values } = unitWords(method.compared);
      return `primary difference over the standard deviation of the untreated ${many}’ ${values}; limits from the noncentral t`;
    }
    case 'log-response-ratio':
      return 'logarithm of the ratio of mean after values, delta-method interval with normal quantiles';
    case 'probability-of-superiority': {
      const { one, many, value } = unitWords(method.compared);
      return `proportion of treated–untreated pairs of ${many} in which the treated ${one}’s ${value} is better, ties half; Newcombe’s interval, method 5`;
    }
    case 'wall-values':
      return method.scale === 'ratio'
        ? `exponential of the ${differences[method.difference]} on the logarithms`
        : differences[method.difference];
    case 'adjusted': {
      const taken = [...(method.season ? ['a yearly cycle'] : []), ...method.weather.map((one) => weather[one] ?? one)];
      return `linear mixed model of the walls’ visits adjusted for ${taken.join(', ')}; walls and their changes at random; restricted maximum likelihood; Satterthwaite’s degrees of freedom`;
    }
    case 'rate-ratio':
      return `one nonlinear mixed model of all readings: exponential approach to what a wall keeps; rates that differ by arm, and at random by wall${andBlock(method)}${method.season ? '; a yearly cycle common to all walls' : ''}; interval by Student’s t on the logarithm`;
    case 'paired-series':
      return `${placesOf(estimate, method)} at each of ${method.visits} common visits${apart(method)}; level after less level before; interval by Student’s t averaged over the first-order autocorrelation`;
    case 'paired-series-fitted':
      return 'generalised least squares with first-order autocorrelation by restricted maximum likelihood, standard error and degrees of freedom by Kenward and Roger';
    case 'paired-series-robust':
      return `least squares with Newey and West’s standard error over half the length of the series, its limits from ${formatNumber(10_000, 0)} drawn series with seed ${method.seed}`;
    case 'paired-series-trend':
      return 'the distance between lines through the before and the after visits, in the middle of the after window, interval by Student’s t averaged over the first-order autocorrelation';
    case 'paired-series-weather':
      return 'the same adjusted for the vapour pressure difference of the thirty days before each visit, as a linear term, interval by Student’s t averaged over the first-order autocorrelation';
    case 'paired-series-pooled':
      return `the change of each pair’s own series of common visits, first-order autocorrelation allowed for, and their mean over ${method.pairs} of ${method.of} pairs with Student’s t`;
    case 'rank-shift':
      return 'Hodges and Lehmann’s median of differences, with the limits of the rank test';
    case 'neighbours':
      return 'difference of means over untreated walls, interval by Welch’s t';
    case 'fieller':
      return 'ratio of means with Fieller’s limits';
    case 'mean-after':
      return 'mean of walls with Student’s interval';
    case 'stand-in-slope':
      return 'least squares of moisture change on arm, block and the stand-in’s change, interval by Student’s t';
    case 'share-explained':
      return `least squares on arm${andBlock(method)}, Fieller’s limits of a ratio`;
    case 'calibrated':
      return 'the primary method on calibrated readings, the interval widened by the calibration’s slope';
    case 'below-likelihood':
      return 'the primary method, readings below the limit by maximum likelihood';
    case 'below-product-limit':
      return 'the primary method, readings below the limit by the product limit';
  }
}

const differences: Readonly<Record<DifferenceMethod, string>> = {
  welch: 'difference of the arms’ means over walls, interval by Welch’s t',
  'paired-blocks': 'mean difference inside pairs of walls, interval by Student’s t',
  'block-model': 'difference inside blocks by least squares on arm and block, interval by Student’s t',
};

const weather: Readonly<Record<string, string>> = {
  weather: 'vapour pressure difference of the thirty days before',
  rain: 'rain of the thirty days before',
  heating: 'hours of heating of the thirty days before',
};

function andBlock({ isBlocked }: { readonly isBlocked: boolean }): string {
  return isBlocked ? ' and block' : '';
}

type MethodOf<K extends Method['kind']> = Extract<Method, { readonly kind: K }>;

function allocationsOf({ isExact, allocations }: MethodOf<'randomisation'>): string {
  return isExact
    ? `randomisation test, two-sided, over all ${formatNumber(allocations, 0)} allocations`
    : `randomisation test, two-sided, over ${formatNumber(allocations, 0)} drawn allocations`;
}

function shiftsOf({ interval }: Estimate, { isExact, attainedLevel, compared }: MethodOf<'randomisation'>): string {
  if (interval === undefined) return '';
  const hold =
    '; interval of the constant shifts that its p-value does not reject: such intervals include the true shift';
  const level = `${isExact ? 'at least' : 'about'} ${percent(interval.level)} of the time`;
  const { many } = unitWords(compared);
  return `${hold} ${level}${attainedLevel === undefined ? '' : `, with so few ${many} ${percent(attainedLevel)}`}`;
}

function placesOf({ walls }: Estimate, { matchedPlaces }: MethodOf<'paired-series'>): string {
  const { treated, untreated } = walls;
  const side = (name: string, count: number) => (count === 1 ? `${name} wall` : `mean of the ${count} ${name} walls`);
  const difference =
    treated + untreated === 2
      ? 'treated less untreated wall'
      : `${side('treated', treated)} less ${side('untreated', untreated)}`;
  if (matchedPlaces === 0) return difference;
  return `${difference} at ${matchedPlaces === 1 ? 'the one height and depth' : `${matchedPlaces} heights and depths`} that both have`;
}

function apart({ visitsApart }: MethodOf<'paired-series'>): string {
  return visitsApart === 0 ? '' : ` (${visitsApart} of them with readings up to ${mostDaysApart} days apart)`;
}

function percent(share: number): string {
  return `${Number((100 * share).toFixed(1))} %`;
}
