import { binomial, effectiveSampleSize } from '../../statistics/index.js';
import { PlanningError } from '../planning-error.js';

/** How readings scatter, as standard deviations in the unit of the outcome. */
export interface Spreads {
  /** Of the true changes of walls treated alike. */
  readonly walls: number;
  /** Of the true changes of stations of one wall. */
  readonly stations: number;
  /** Of a whole wall from visit to visit about its level in a window: weather and heating, common to its stations. */
  readonly visits: number;
  /** Of single readings at one station on one visit: the spot, the core. */
  readonly readings: number;
  /** Standard uncertainty of one reading, as far as it differs from reading to reading; 0 where `readings` holds it already. */
  readonly measurement: number;
  /** Correlation of a wall's successive visits. */
  readonly autocorrelation: number;
  /** Correlation of the true changes of walls in one pair, block or house. */
  readonly correlation: number;
}

/** How often each wall is read. */
export interface Sampling {
  readonly stations: number;
  readonly visitsBefore: number;
  readonly visitsAfter: number;
}

/** The variance of a wall's measured change, and where it comes from. */
export interface ChangeVariance {
  /** Which no more stations or visits make smaller. */
  readonly walls: number;
  readonly stations: number;
  readonly visits: number;
  readonly readings: number;
  /** The correlation of walls of one pair, block or house: of the true changes only. */
  readonly correlation: number;
}

/**
 * The variance of a wall's change, mean after less mean before, over its stations:
 *
 * σ²walls + σ²stations / S + σ²visits (1/V'b + 1/V'a) + (σ²readings + u²) (1/(S Vb) + 1/(S Va))
 *
 * with S stations and V visits, V' what these are worth where successive visits resemble each other. The windows count as far
 * enough apart for their visits to be independent of each other. Where visits are missed at random, their terms are means over the
 * numbers that may be left, as if these followed each other: an approximation, which `simulatedChances` does without.
 *
 * @param missedVisits the chance that a wall is not read on a visit
 * @throws PlanningError `out-of-range`
 * @example changeVariance({ ...scatter, visits: 0.5 }, { stations: 4, visitsBefore: 4, visitsAfter: 4 }).visits // 0.125
 */
export function changeVariance(spreads: Spreads, sampling: Sampling, missedVisits = 0): ChangeVariance {
  checkSpreads(spreads);
  checkSampling(sampling);
  checkMissed(missedVisits);
  const { stations, visitsBefore, visitsAfter } = sampling;
  const { autocorrelation, correlation } = spreads;
  const over = (term: (visits: number) => number) =>
    meanOverLeft(visitsBefore, missedVisits, term) + meanOverLeft(visitsAfter, missedVisits, term);
  return {
    walls: spreads.walls ** 2,
    stations: spreads.stations ** 2 / stations,
    visits: spreads.visits ** 2 * over((visits) => 1 / effectiveSampleSize(visits, autocorrelation)),
    readings: ((spreads.readings ** 2 + spreads.measurement ** 2) / stations) * over((visits) => 1 / visits),
    correlation,
  };
}

/** Of a window that was not missed whole. */
function meanOverLeft(visits: number, missed: number, term: (visits: number) => number): number {
  if (missed === 0) return term(visits);
  const left = binomial(visits, 1 - missed);
  const terms = Array.from({ length: visits }, (_, at) => left.density(at + 1) * term(at + 1));
  return terms.reduce((sum, one) => sum + one, 0) / (1 - missed ** visits);
}

/** The chance that a wall is read in both windows. */
export function readInBoth({ visitsBefore, visitsAfter }: Sampling, missedVisits: number): number {
  return (1 - missedVisits ** visitsBefore) * (1 - missedVisits ** visitsAfter);
}

/** Of the change of one wall by itself. */
export function totalVariance({ walls, stations, visits, readings }: ChangeVariance): number {
  return walls + stations + visits + readings;
}

/** Of the part that walls of one pair or block do not share. */
export function varianceInside(variance: ChangeVariance): number {
  return totalVariance(variance) - variance.correlation * variance.walls;
}

/** Of the mean over the walls of one house: the common part does not shrink with their number. */
export function varianceOfHouse(variance: ChangeVariance, walls: number): number {
  return variance.correlation * variance.walls + varianceInside(variance) / walls;
}

function checkSpreads(spreads: Spreads): void {
  const where = 'changeVariance';
  for (const name of ['walls', 'stations', 'visits', 'readings', 'measurement'] as const) {
    const value = spreads[name];
    if (!(value >= 0 && Number.isFinite(value)))
      throw new PlanningError(where, 'out-of-range', `needs a spread of ${name} of 0 or more, got ${value}`);
  }
  if (!(Math.abs(spreads.autocorrelation) < 1))
    throw new PlanningError(
      where,
      'out-of-range',
      `needs an autocorrelation between -1 and 1, got ${spreads.autocorrelation}`,
    );
  if (!(Math.abs(spreads.correlation) <= 1))
    throw new PlanningError(where, 'out-of-range', `needs a correlation from -1 to 1, got ${spreads.correlation}`);
}

function checkSampling(sampling: Sampling): void {
  for (const [name, value] of Object.entries(sampling)) {
    if (Number.isSafeInteger(value) && value >= 1) continue;
    throw new PlanningError('changeVariance', 'out-of-range', `needs a whole number of ${name} from 1, got ${value}`);
  }
}

function checkMissed(missed: number): void {
  if (missed >= 0 && missed < 1) return;
  throw new PlanningError('changeVariance', 'out-of-range', `needs missed visits from 0 to below 1, got ${missed}`);
}
