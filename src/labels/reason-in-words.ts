import type { Compared, PlainReason, Reason } from '../analysis/index.js';
import { unitWords } from './unit-words.js';

/**
 * Why something was not estimated, in words that end a sentence beginning with "because".
 *
 * @example reasonInWords({ code: 'arm-is-block' }) // 'arm and block cannot be distinguished'
 */
export function reasonInWords(reason: Reason): string {
  switch (reason.code) {
    case 'one-station-each':
      return `no ${ofWalls(reason.units).one} has more than one station`;
    case 'stations-alike':
      return `the stations of each ${ofWalls(reason.units).one} change alike, as copied readings do`;
    case 'units-no-wider-than-stations': {
      const { many } = ofWalls(reason.units);
      return `${many} seem to vary no more than their stations do, and stations would then count as if they were ${many}`;
    }
    case 'no-other-allocation':
      return `there are no treated and untreated ${ofWalls(reason.units).many} that could have changed places`;
    case 'not-all-before':
      return `the plan draws an allocation again by before values, and not all ${ofWalls(reason.units).many} have one`;
    case 'wall-count-not-unit-count':
      return `each ${reason.units} counts as one, and this answer would count each of its walls`;
    case 'units-do-not-vary': {
      const { many, values } = unitWords(reason.compared);
      return `the ${values} do not vary between ${many} at all, as those of real ${many} always do`;
    }
    case 'empty-side':
      return `there are ${countsInWords(reason)}`;
    case 'no-replication':
      return `with ${countsInWords(reason)}, there is no replication, so that variation between ${unitWords(reason.compared).many} cannot be estimated`;
    case 'no-degrees-of-freedom':
      return `${countsInWords(reason)} in ${reason.blocks} blocks leave no degrees of freedom for the error`;
    case 'series-too-short': {
      const [walls, these] = reason.isOfTwo ? ['the two walls', 'these two'] : ['all walls', 'these'];
      return `${walls} were read on ${reason.before} common days before and ${reason.after} after, and it takes ${reason.needed} of each to judge even what ${these} did`;
    }
    case 'no-station-above':
      return `no station stands above ${reason.height_mm} mm`;
    case 'too-few-neighbours':
      return `${reason.near} untreated walls touch a treated one and ${reason.far} do not; it takes two of each`;
    case 'too-few-stand-in-walls':
      return `only ${reason.walls} walls were read with it before and again later; it takes ${reason.needed}`;
    case 'walls-without-rate':
      return `${reason.without} of ${reason.of} walls have no rate: their readings do not come down to a level along an exponential, and leaving them out would bias the ratio`;
    case 'not-all-so-far': {
      const { late, of, countedTo_d } = reason;
      const instead =
        countedTo_d === undefined ? '' : `; the ratio of days counted up to day ${countedTo_d} stands in for it`;
      return `${late} of ${of} walls had not come so far by their last visit${instead}`;
    }
    case 'weather-not-recorded': {
      const needed = reason.names.map((name) => recordOf[name]).join(' and ');
      return `the plan names it, and climate.csv holds no ${needed} for the time of the visits`;
    }
    default:
      return plain[reason.code];
  }
}

const plain: Readonly<Record<PlainReason, string>> = {
  'after-is-window': 'the visits cannot distinguish it from the change between the windows',
  'apart-before-beyond-plan':
    'the sides differ by more in the before means on record than the plan let pass, so the allocations that could have been drawn are unknown',
  'arm-is-block': 'arm and block cannot be distinguished',
  'arms-like-blocks': 'the arms cannot be distinguished from blocks',
  'at-target-before': 'the walls stood at the target before the treatment',
  'before-is-arm': 'the before values, or the blocks, cannot be distinguished from the arms',
  'before-or-after-do-not-vary': 'the before or after values do not vary between walls',
  'changes-do-not-vary': 'the changes do not vary between walls',
  'curve-not-above-zero': 'a curve does not begin above zero',
  'curves-not-exponential': 'the curves are not bent enough, or too unlike one another, for one fit of an exponential',
  'curves-not-of-drying': 'the curves are not those of drying walls',
  'cutoff-out-of-reach': 'no wall looked at could have passed the cutoff that the plan states',
  'empty-arm': 'one of the arms has no wall with a change',
  'neighbours-unknown': 'the folder (`walls.csv`) does not say which walls are neighbours',
  'no-before': 'no wall was read before the treatment',
  'no-before-in-comparison': 'no wall of the comparison was read before the treatment',
  'no-common-place': 'no height and depth was kept on both sides',
  'no-effect': 'there is no effect on moisture of which a proportion could be given',
  'no-effect-to-share':
    'the effect on moisture cannot be distinguished from zero, so that no proportion of it can be given',
  'no-limit-of-reach': 'the plan names no height above which the treatment cannot act',
  'no-mixed-block': 'no block holds both a treated and an untreated wall',
  'no-places': 'no heights and depths were recorded',
  'no-repeated-day-before': 'no wall was read on two days before the treatment',
  'no-scale-of-spread': 'the walls do not vary, so there is no spread to measure by',
  'no-windows': 'the plan states no windows',
  'not-an-amount': 'the outcome is an index, of which percentages have no meaning',
  'nothing-held-before': 'the walls held nothing before the treatment of which a proportion could be taken',
  'polarity-unknown':
    'the plan does not say which lead stood where (polarity), and a voltage without that has no sign: a swapped lead is a flip',
  'ratio-needs-positive-means': 'a ratio needs positive mean values in both arms',
  'ratio-needs-positive-values': 'a ratio needs values above zero, and a wall has none',
  'screened-unknown': 'the plan does not say among which walls the wettest were looked for',
  'series-does-not-vary':
    'the difference of the walls does not vary between visits at all, as that of real walls always does',
  'series-not-judged': 'the series of the two walls cannot be judged',
  'series-too-steady': 'the series is so steady from visit to visit that no autocorrelation below 1 fits best',
  'single-pair': 'with a single pair there is no replication, so that variation between pairs cannot be estimated',
  'stand-in-alike': 'the stand-in did not change differently between walls',
  'stand-in-is-arm': 'the stand-in’s changes cannot be distinguished from arm and block',
  'too-few-days-before': 'the walls were read on fewer than two days before the treatment',
  'too-few-in-arm': 'there are too few walls with a change in one of the arms',
  'too-few-values': 'there are too few walls with a value for it',
  'too-few-walls': 'there are too few walls with a change for it',
  'treated-alike': 'the treated walls all stand at the same value',
  'untreated-mean-near-zero': 'the untreated walls’ mean cannot be distinguished from zero',
  'values-do-not-vary': 'the values do not vary between walls',
  'visits-do-not-vary': 'it does not vary between the visits, or the walls do not vary',
};

const recordOf = {
  weather: 'temperatures and humidities (`temperature_c`, `relative_humidity_pct`)',
  rain: 'rain (`rain_mm`)',
  heating: 'hours of heating (`heating_h`)',
} as const;

function ofWalls(units: Compared['units']) {
  return unitWords({ units, value: 'change' });
}

function countsInWords({
  compared,
  counts,
}: {
  readonly compared: Compared;
  readonly counts: { readonly treated: number; readonly untreated: number };
}): string {
  const { one, many, value } = unitWords(compared);
  const article = value === 'change' ? 'a' : 'an';
  return `${counts.treated} treated and ${counts.untreated} untreated ${counts.untreated === 1 ? one : many} with ${article} ${value}`;
}
