import type { Compared, EffectSizeKind, Estimate, Method } from '../analysis/index.js';
import { daysUntil } from './label-of.js';
import { unitWords } from './unit-words.js';

/** What an estimate is an estimate of, as a noun phrase. */
export function quantityOf({ id, about, method, walls }: Estimate): string {
  if (id === 'sham-against-control') return 'sham walls’ change less plain untreated walls’ change';
  if (id === 'untreated-outside') return 'change of untreated walls outside the comparison less that of those in it';
  switch (method.kind) {
    case 'welch':
    case 'paired-blocks':
    case 'block-model':
    case 'randomisation':
    case 'bootstrap':
    case 'mixed-model':
      return differenceOf(method);
    case 'cluster-robust':
      return `${differenceOf(method)}, each station counting alike`;
    case 'baseline-adjusted': {
      const { many } = unitWords(method.compared);
      return `treated ${many}’ after value less untreated ${many}’ at the same before value`;
    }
    case 'hedges-g':
    case 'glass-delta':
    case 'log-response-ratio':
    case 'probability-of-superiority':
      return sizeOf(method);
    case 'wall-values': {
      const { scale, quantity = 'value' } = method;
      const what = wallQuantities[id]?.(about) ?? quantity;
      return `treated walls’ ${what} ${scale === 'ratio' ? 'over' : 'less'} untreated walls’`;
    }
    case 'rate-ratio':
      return 'treated walls’ drying rate over untreated walls’';
    case 'adjusted':
    case 'paired-series-pooled':
      return 'treated walls’ change less untreated walls’ change';
    case 'paired-series':
    case 'paired-series-fitted':
    case 'paired-series-robust':
    case 'paired-series-trend':
    case 'paired-series-weather':
      return ofSeries(walls);
    case 'rank-shift':
      return 'typical shift of treated walls’ change against untreated walls’';
    case 'neighbours':
      return 'change of untreated walls beside a treated one less that of the others';
    case 'fieller':
      return 'treated walls’ after mean below untreated walls’, in percent of the latter';
    case 'mean-after':
      return `treated walls’ mean ${method.quantity} in the after window`;
    case 'stand-in-slope':
      return `change of ${method.quantity} per unit of the stand-in’s change, among walls of one arm`;
    case 'share-explained':
      return 'slope inside arms times the effect on the stand-in, over the effect on moisture';
    case 'calibrated':
      return `treated less untreated change of ${method.quantity}, by ${about?.kind === 'instrument' ? about.instrument : 'a meter'}`;
    case 'below-likelihood':
    case 'below-product-limit':
      return 'treated less untreated change';
  }
}

const wallQuantities: Readonly<Record<string, (about: Estimate['about']) => string | undefined>> = {
  'water-lost': (about) => `moisture lost by day ${daysIn(about)}`,
  'mean-rate': (about) => `mean loss in 30 days, by day ${daysIn(about)}`,
  'drying-index': () => 'drying index',
  'rate-ratio': () => 'drying rate',
  'days-to-fall': daysUntil,
  'days-to-fall-ratio': daysUntil,
  'days-to-fall-ratio-restricted': daysUntil,
  'days-to-dry': daysUntil,
  'days-to-dry-ratio': daysUntil,
  'days-to-dry-ratio-restricted': daysUntil,
  'effect-on-stand-in': (about) => (about?.kind === 'instrument' ? `change of ${about.instrument}` : undefined),
  'knowing-less-blind': () => 'reading by somebody who knew less reading by somebody who did not',
};

function daysIn(about: Estimate['about']): number {
  return about?.kind === 'drying' ? about.days : 0;
}

function differenceOf({ compared }: Extract<Method, { compared: unknown }>): string {
  const { many, value } = unitWords(compared);
  return `treated ${many}’ ${value} less untreated ${many}’ ${value}`;
}

function sizeOf({ kind, compared }: { readonly kind: EffectSizeKind; readonly compared: Compared }): string {
  const { one, many, value, values } = unitWords(compared);
  switch (kind) {
    case 'hedges-g':
      return `difference of ${values} in standard deviations between ${many}`;
    case 'glass-delta':
      return `difference of ${values} in standard deviations between untreated ${many}`;
    case 'log-response-ratio':
      return `natural logarithm of the treated over the untreated ${many}’ mean after value`;
    case 'probability-of-superiority':
      return `probability that a treated ${one}’s ${value} is better than an untreated ${one}’s`;
  }
}

function ofSeries({ treated, untreated }: Estimate['walls']): string {
  if (treated + untreated === 2) return 'treated wall’s change less untreated wall’s change, of these two walls only';
  const side = (name: string, count: number) =>
    count === 1 ? `${name} wall’s change` : `mean change of the ${count} ${name} walls`;
  return `${side('treated', treated)} less ${side('untreated', untreated)}, of these walls only`;
}
