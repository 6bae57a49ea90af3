import type { Estimate, Method } from '../analysis/index.js';
import { unitWords } from './unit-words.js';

/** What an estimate assumes, each in words that could end a sentence. */
export function assumptionsOf(estimate: Estimate): readonly string[] {
  const { method } = estimate;
  return [
    ...ownOf(estimate),
    ...('compared' in method ? unitWords(method.compared).assumed : []),
    ...addedTo(estimate),
  ];
}

function ownOf(estimate: Estimate): readonly string[] {
  const { method } = estimate;
  switch (method.kind) {
    case 'welch': {
      const { many, values } = unitWords(method.compared);
      return [
        `${many} are independent of each other`,
        `${values} of ${many} in each arm are roughly normal, or the ${many} are many`,
        'the arms may differ in spread',
      ];
    }
    case 'paired-blocks':
    case 'paired-series-pooled':
      return ['pairs are independent of each other', 'differences of pairs are roughly normal, or the pairs are many'];
    case 'block-model': {
      const { many } = unitWords(method.compared);
      return [
        `${many} are independent of each other, apart from their block`,
        'the effect is the same in every block',
        `${many} vary alike in both arms and roughly normally around their block`,
      ];
    }
    case 'baseline-adjusted': {
      const { many } = unitWords(method.compared);
      return [
        `${many} are independent of each other, apart from their block`,
        'the after value is linear in the before value, with the same slope in both arms',
        `${many} vary alike in both arms and roughly normally around that line`,
      ];
    }
    case 'randomisation':
      return [groundOf(method), ...constraintOf(estimate, method), shiftOf(estimate, method)];
    case 'bootstrap': {
      const { many } = unitWords(method.compared);
      return [
        `the ${many} stand for many more like them, whatever the shape of their distribution`,
        method.limits === 'bca'
          ? `trust it from about ten ${many} an arm; with fewer its width comes from Student’s t more than from the ${many}`
          : `trust it from about ten ${many} an arm; with fewer it is longer than it need be`,
      ];
    }
    case 'cluster-robust': {
      const { one, many } = unitWords(method.compared);
      const [cluster, clusters] = method.cluster === 'pair' ? ['pair', 'pairs'] : [one, many];
      return [`${clusters} are independent of each other; inside a ${cluster} stations may be correlated in any way`];
    }
    case 'mixed-model': {
      const { one, many } = unitWords(method.compared);
      return [
        `stations of a ${one} vary around it, and ${many} around their arm, normally and with the same spread everywhere`,
        `trust it beside the primary analysis where ${many} have unlike numbers of stations`,
      ];
    }
    case 'hedges-g':
    case 'glass-delta': {
      const { many, values } = unitWords(method.compared);
      return [`${values} of ${many} are roughly normal in each arm and vary alike in both`];
    }
    case 'log-response-ratio':
      return [
        'the arms started alike, for before values do not enter',
        `the ${unitWords(method.compared).many} are many enough for normal quantiles`,
      ];
    case 'probability-of-superiority':
      return [`${unitWords(method.compared).many} are independent of each other; pairs and blocks are not used`];
    case 'wall-values':
      return [
        'walls are independent of each other, apart from their block',
        `the walls’ ${method.scale === 'ratio' ? 'logarithms' : 'numbers'} are roughly normal in each arm, or the walls are many`,
      ];
    case 'adjusted':
      return [
        'season and weather act on all walls alike, and linearly',
        'walls are independent of each other, apart from their block',
      ];
    case 'rate-ratio':
      return [
        method.season
          ? 'every wall dries along an exponential, and the seasons move all walls alike'
          : 'every wall dries along an exponential, which a season or a stage of constant rate bends',
        'logarithms of the walls’ rates are normal and vary alike in both arms',
        'readings of a station scatter independently around its curve',
      ];
    case 'paired-series':
      return [...ofSeries(estimate), errorsFade];
    case 'paired-series-fitted':
      return [...ofSeries(estimate), errorsFade, 'the best-fitting autocorrelation is near the true one'];
    case 'paired-series-robust':
      return [
        ...ofSeries(estimate),
        'the series is long, visits lie about evenly, and they do not resemble each other much',
      ];
    case 'paired-series-trend':
      return [
        ofTheseWalls(estimate),
        'the walls would have gone on drifting apart or together as they did before',
        errorsFade,
      ];
    case 'paired-series-weather':
      return [ofTheseWalls(estimate), 'the difference of the walls is linear in the weather', errorsFade];
    case 'rank-shift':
      return ['the treatment shifts every wall alike'];
    case 'neighbours':
      return ['which untreated walls touch a treated one is unrelated to how they dry'];
    case 'fieller':
      return ['walls are independent of each other', 'the outcome has a true zero'];
    case 'mean-after':
      return ['walls are independent of each other'];
    case 'stand-in-slope':
      return ['walls are independent of each other, apart from their block', 'the slope is the same in every arm'];
    case 'share-explained':
      return [
        'nothing else moves both the stand-in and the moisture of a wall',
        'walls are independent of each other, apart from their block, and spread alike in both arms',
      ];
    case 'calibrated':
      return ['the calibration holds alike before and after, and in both arms'];
    case 'below-likelihood':
      return ['readings of a wall are normal about its mean, with one spread for all'];
    case 'below-product-limit':
      return ['readings below the limit lie where the others of their wall and window leave room'];
  }
}

/** What stands at the end: what the fit found of itself, and what goes with the number compared. */
function addedTo({ id, method }: Estimate): readonly string[] {
  if (method.kind === 'mixed-model') return method.boundary.map((term) => `the estimated variance of ${term} is zero`);
  if (method.kind === 'cluster-robust')
    return method.isWeak ? ['do not trust it here: it rests on fewer than 4 degrees of freedom'] : [];
  if (method.kind !== 'wall-values') return [];
  if (method.exponential !== undefined) {
    const { walls, of } = method.exponential;
    return [
      `every wall dries along an exponential to a level of its own, the shape that AICc puts first for ${walls} of ${of} walls`,
    ];
  }
  if (id === 'knowing-less-blind') return ['at a station, who reads when is unrelated to its moisture'];
  return id.startsWith('days-to-')
    ? ['a wall came so far half way between the visits that found it above and below']
    : [];
}

const errorsFade = 'errors resemble the visit before, ever less the longer ago it was, and are roughly normal';

function ofSeries(estimate: Estimate): readonly string[] {
  return [ofTheseWalls(estimate), 'the difference of the walls keeps to one level in each window, apart from errors'];
}

function ofTheseWalls({ walls }: Estimate): string {
  return walls.treated + walls.untreated === 2
    ? 'it speaks of these two walls: nothing but the treatment came to set one of them apart between the windows'
    : 'it speaks of these walls: nothing but the treatment came to set the single one apart from the others between the windows';
}

type Randomisation = Extract<Method, { readonly kind: 'randomisation' }>;

function groundOf({ allocation, compared }: Randomisation): string {
  const { many, values } = unitWords(compared);
  return allocation === 'chosen'
    ? `that the ${many} to be treated were randomised, which they were not: it says what randomisation would have made of these ${values}`
    : `the ${many} to be treated were randomised, as the plan says`;
}

function constraintOf({ unit }: Estimate, { mostBeforeDifference: most }: Randomisation): readonly string[] {
  return most === undefined
    ? []
    : [
        `allocations whose sides differed by more than ${Number(most.toPrecision(4))} ${unit} before were drawn again, as the plan says, and are not looked at`,
      ];
}

function shiftOf({ interval }: Estimate, { compared, smallestP }: Randomisation): string {
  return interval === undefined
    ? `no interval: this design’s smallest p-value is ${Number(smallestP.toPrecision(3))}`
    : `the interval adds that the treatment shifts every ${unitWords(compared).one} alike`;
}
