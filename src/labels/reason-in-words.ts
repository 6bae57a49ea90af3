import type { Compared, Reason } from '../analysis/index.js';
import { countInWords, listInWords } from '../words/quantity.js';
import { faultInWords } from './fault-in-words.js';
import { plainReasons } from './plain-reasons.js';
import { unitWords } from './unit-words.js';

/**
 * Why something could not be reckoned, in words that end a sentence beginning with "because".
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
    case 'refused':
      return faultInWords(reason.fault);
    case 'not-calibrated':
      return `uncalibrated, its readings stay an index: ${reasonInWords(reason.because)}`;
    case 'too-few-pairs':
      return pairsInWords(reason);
    case 'reading-runs-other-way':
      return `its readings do not ${reason.readingRises === 'with-moisture' ? 'rise' : 'fall'} with moisture`;
    case 'too-few-walls-by-both':
      return `${countInWords(reason.walls, 'wall has a change', 'walls have a change')} by both, and it takes ${reason.needed}`;
    case 'too-few-checks':
      return `there are ${countInWords(reason.checks, 'check')} of ${countInWords(reason.blocks, 'block')}, and it takes at least two more than blocks`;
    case 'too-few-reversals':
      return `${countInWords(reason.pairs, 'place was', 'places were')} read with both leads on a day, and it takes ${reason.needed}`;
    case 'too-few-measured': {
      const what = reason.needed === 1 ? 'one measured reading' : 'two measured readings that differ';
      return `it takes ${what} of a wall in each window, and there are fewer of ${listInWords(reason.walls)}`;
    }
    case 'unit-without-mass':
      return `an outcome in ${reason.unit} says nothing of kilograms of water`;
    case 'too-few-visits-after':
      return `a curve needs at least ${reason.needed} visits after the treatment in both arms, and the walls have ${reason.most} at most`;
    case 'wall-with-few-visits':
      return `fewer than ${reason.needed} visits after the treatment`;
    case 'no-sensors-at-heights':
      return `no wall has embedded sensors at ${reason.needed} heights that were read before its treatment`;
    case 'too-few-doses':
      return `${countInWords(reason.walls, 'treated wall has', 'treated walls have')} a dose and a change, and a slope takes three`;
    case 'sealed-in-other-unit':
      return `the outcome was sealed in ${reason.locked} and is in ${reason.now}, and readings of ${reason.instrument} bear one unit only`;
    default:
      return plainReasons[reason.code];
  }
}

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

function pairsInWords({ pairs, walls, needed }: Extract<Reason, { readonly code: 'too-few-pairs' }>): string {
  const takes = `a calibration takes ${needed} pairs of core and reading, from ${needed} walls`;
  if (pairs === 0)
    return `no core was drilled where and when it was read, and a calibration takes ${needed} cores with readings, from ${needed} walls`;
  return `${takes}, and there ${pairs === 1 ? 'is' : 'are'} ${countInWords(pairs, 'pair')} from ${countInWords(walls, 'wall')}`;
}
