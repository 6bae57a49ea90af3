import type { About, Estimate, Named, NotEstimated } from '../analysis/index.js';
import { formatStated } from '../words/format-number.js';
import { listInWords } from '../words/quantity.js';

type NameOf = string | ((about: About | undefined) => string);

/**
 * The standard name of an analysis, as a statistician knows it; an id that no analysis of ours bears names itself.
 *
 * @example labelOf({ id: 'bootstrap' }) // 'Bootstrap, resampling walls'
 */
export function labelOf(answer: Estimate | NotEstimated | Named): string {
  const { id, about } = answer;
  const named = id === 'wall-change' ? primaryName(answer) : nameOf(id, about);
  const end = 'endOf' in answer ? answer.endOf : undefined;
  return end === undefined ? named : `${named} (${end.end} of ${end.answers})`;
}

function nameOf(id: string, about: About | undefined): string {
  if (about?.kind === 'pooled-pairs') return 'Series of pairs, pooled';
  const found = names[id] ?? families.find(([start]) => id.startsWith(start))?.[1] ?? id;
  return typeof found === 'string' ? found : found(about);
}

/** By the design, which decides the method. */
function primaryName(answer: Estimate | NotEstimated | Named): string {
  if (!('method' in answer)) return 'Difference of changes';
  const { method, walls } = answer;
  switch (method.kind) {
    case 'welch':
    case 'paired-blocks':
    case 'block-model': {
      const inside = { welch: '', 'paired-blocks': ' inside pairs', 'block-model': ' inside blocks' }[method.kind];
      return `Difference of ${method.compared.value === 'after' ? 'after values' : 'changes'}${inside}`;
    }
    case 'paired-series':
      return walls.treated + walls.untreated === 2
        ? 'Change of the difference of two walls'
        : 'Change of the difference of the walls';
    default:
      return 'Difference of changes';
  }
}

const instrumentOf = (about: About | undefined) => (about?.kind === 'instrument' ? about.instrument : 'the instrument');
const leftOf = (about: About | undefined) =>
  about?.kind === 'without' ? `Without ${about.of} ${about.left}` : 'Without one';
const daysOf = (about: About | undefined) => (about?.kind === 'drying' ? about.days : 0);
const adjustedFor = (about: About | undefined) =>
  about?.kind === 'adjustments' && about.names.length > 1
    ? `Adjusted for ${listInWords(about.names)}`
    : `Adjusted for the ${about?.kind === 'adjustments' ? about.names.join() : 'season'}`;

/** Days until walls had come as far as the margin, or to the moisture that the plan calls dry. */
export function daysUntil(about: About | undefined): string {
  return about?.kind === 'drying' && about.dryBelow !== undefined
    ? `days until at most ${formatStated(about.dryBelow)} ${about.unit ?? ''}`.trimEnd()
    : 'days until lower by the margin';
}

const ofTheFirst = (about: About | undefined) => `${daysUntil(about)}, of the first ${daysOf(about)}`;
const capital = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

const names: Readonly<Record<string, NameOf>> = {
  'after-earlier': 'After window a month earlier',
  'after-later': 'After window a month later',
  'baseline-adjusted': 'Baseline-adjusted (ANCOVA)',
  'baseline-difference': 'A difference before the treatment',
  'before-earlier': 'Before window a month earlier',
  'below-likelihood': 'Censored readings, by maximum likelihood',
  'below-product-limit': 'Censored readings, by Kaplan and Meier',
  'blind-only': 'Readings taken blind alone',
  bootstrap: 'Bootstrap, resampling walls',
  'carry-over': 'Carry-over to untreated neighbours',
  'cluster-robust': 'Station-level regression, cluster-robust (CR2) by wall',
  'common-places': 'Heights and depths that both arms kept',
  'days-to-dry': (about) => capital(ofTheFirst(about)),
  'days-to-dry-ratio': (about) => `Ratio of ${daysUntil(about)}`,
  'days-to-dry-ratio-restricted': (about) => `Ratio of ${ofTheFirst(about)}`,
  'days-to-fall': (about) => capital(ofTheFirst(about)),
  'days-to-fall-ratio': (about) => `Ratio of ${daysUntil(about)}`,
  'days-to-fall-ratio-restricted': (about) => `Ratio of ${ofTheFirst(about)}`,
  'drying-index': (about) => `Drying index over ${daysOf(about)} days`,
  'effect-on-stand-in': (about) => `Effect on ${instrumentOf(about)}`,
  'glass-delta': 'Glass’s delta',
  'heating-adjusted': adjustedFor,
  'hedges-g': 'Hedges’ g',
  'knew-no': 'After readings taken blind',
  'knew-unsure': 'After readings by readers who were unsure',
  'knew-yes': 'After readings by readers who knew',
  'knowing-less-blind': 'Knowing less blind readings, treated against untreated walls',
  'log-response-ratio': 'Log response ratio',
  'mean-rate': 'Mean rate of loss in 30 days',
  'mixed-model': 'Linear mixed model, stations nested in walls',
  'out-of-reach': 'An effect where none can be',
  'paired-series': 'Generalised least squares, AR(1) errors',
  'paired-series-robust': 'Newey–West standard error',
  'paired-series-trend': 'Adjusted for the trend before',
  'paired-series-weather': 'Adjusted for the weather of each visit',
  'pass-mark': 'Reduction against the untreated walls',
  'pass-mark-target': 'Where the treated walls stand',
  'placebo-dates': 'An effect before the treatment',
  'planned-adjusted': adjustedFor,
  'probability-of-superiority': 'Probability of superiority',
  'rain-adjusted': adjustedFor,
  randomisation: 'Randomisation (permutation) test',
  ranks: 'By ranks instead of means',
  'rate-ratio': 'Ratio of drying rates, a rate for each wall',
  'rate-ratio-one-fit': 'Ratio of drying rates, all walls in one fit',
  'rate-ratio-season': 'Ratio of drying rates, all walls in one fit, adjusted for a yearly cycle',
  'season-adjusted': adjustedFor,
  'sham-against-control': 'Sham less plain untreated walls',
  'share-explained': 'Proportion of the effect explained by the stand-in',
  'stand-in-predicts': (about) => `Moisture predicted by ${instrumentOf(about)}, inside arms`,
  'untreated-outside': 'Untreated walls outside the comparison less those in it',
  'water-lost': (about) => `Moisture lost by day ${daysOf(about)}`,
  'weather-adjusted': adjustedFor,
  'windows-first-half': 'First half of both windows',
  'windows-narrowed': 'Windows a quarter shorter at both ends',
  'windows-second-half': 'Second half of both windows',
  'without-block': leftOf,
  'without-blocks': 'Blocks ignored',
  'without-reader': leftOf,
  'without-site': leftOf,
  'without-station': (about) =>
    about?.kind !== 'station'
      ? 'Without one station'
      : about.station === ''
        ? `Without the readings of wall ${about.wall}`
        : `Without ${about.station} of wall ${about.wall}`,
  'without-strip': leftOf,
  'without-wall': leftOf,
};

/** Ids that end in what they are about. */
const families: readonly (readonly [start: string, name: (about: About | undefined) => string])[] = [
  ['without-height-', (about) => `Without the stations at ${about?.kind === 'height' ? about.height_mm : '?'} mm`],
  ['without-depth-', (about) => `Without the stations ${about?.kind === 'depth' ? about.depth_mm : '?'} mm deep`],
  ['by-', (about) => `By ${instrumentOf(about)}`],
  ['calibrated-', (about) => `By ${instrumentOf(about)}, calibrated with cores`],
  [
    'secondary-',
    (about) => (about?.kind === 'outcome' ? `${about.quantity} by ${about.instrument}` : 'A further outcome'),
  ],
  ['paired-series-against-', (about) => `Against ${about?.kind === 'one-wall' ? about.wall : 'one wall'} alone`],
  ['paired-series-of-', (about) => `Of ${about?.kind === 'one-wall' ? about.wall : 'one wall'} alone`],
];
