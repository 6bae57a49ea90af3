import type { Side } from '../../analysis/index.js';
import { dayNumber, dayOfNumber, daysBetween, isoDay } from '../../plain/days.js';
import { groupBy } from '../../plain/group-by.js';
import { mean, median } from '../../statistics/index.js';
import { type Trial, windowsOf } from '../../trial/index.js';

/** From which day time counts for each wall of the comparison. */
export interface StartsOfWalls {
  readonly startIs: 'treatment' | 'end-of-before-window';
  readonly startOf: ReadonlyMap<string, string>;
}

/** The days on which the treated walls of the comparison were treated. */
export interface TreatmentSpread {
  readonly first: string;
  readonly last: string;
  /** From the first to the last. */
  readonly days: number;
  readonly walls: number;
  /** Treated walls whose day is not on record. */
  readonly withoutDay: readonly string[];
}

/**
 * A treated wall’s time counts from its own treatment. An untreated wall’s counts from the treatment of its partners: the mean day of the treated
 * walls of its block or, without any, the median day of the trial; so does that of a treated wall whose day is not on record. Where no
 * day is on record time counts from the end of each wall’s before window; undefined without one.
 */
export function startsOfWalls(trial: Trial, sides: ReadonlyMap<string, Side>): StartsOfWalls | undefined {
  const compared = trial.walls.filter(({ wall }) => sides.has(wall));
  const treated = treatedDays(trial, sides);
  if (treated.size === 0) {
    const ends = compared.flatMap(({ wall }): [string, string][] => {
      const end = windowsOf(trial, wall)?.before.to;
      return end === undefined ? [] : [[wall, end]];
    });
    return ends.length === 0 ? undefined : { startIs: 'end-of-before-window', startOf: new Map(ends) };
  }
  const usual = nearestDay(median([...treated.values()].map(dayNumber)));
  const blocks = groupBy(compared, ({ block = '' }) => block);
  const startOf = compared.map(({ wall, block = '' }): [string, string] => {
    const own = treated.get(wall);
    if (own !== undefined) return [wall, own];
    const partners = block === '' ? [] : (blocks.get(block) ?? []).flatMap((each) => treated.get(each.wall) ?? []);
    return [wall, partners.length === 0 ? usual : nearestDay(mean(partners.map(dayNumber)))];
  });
  return { startIs: 'treatment', startOf: new Map(startOf) };
}

/** Undefined where no treated wall’s day is on record. */
export function treatmentSpread(trial: Trial, sides: ReadonlyMap<string, Side>): TreatmentSpread | undefined {
  const treated = treatedDays(trial, sides);
  const days = [...treated.values()].sort();
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const withoutDay = [...sides].flatMap(([wall, side]) => (side === 'treated' && !treated.has(wall) ? [wall] : []));
  return { first, last, days: daysBetween(first, last), walls: days.length, withoutDay };
}

function treatedDays({ walls }: Trial, sides: ReadonlyMap<string, Side>): ReadonlyMap<string, string> {
  return new Map(
    walls.flatMap(({ wall, treatedOn }): [string, string][] =>
      sides.get(wall) === 'treated' && treatedOn !== undefined ? [[wall, isoDay(treatedOn)]] : [],
    ),
  );
}

function nearestDay(number: number): string {
  return dayOfNumber(Math.round(number));
}
