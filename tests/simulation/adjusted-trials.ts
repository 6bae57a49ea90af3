import {
  type Answer,
  adjustedDifference,
  type DryingObservation,
  dryingRateRatio,
  type WallVisit,
} from '../../src/analysis/index.js';
import { addDays } from '../../src/plain/days.js';
import { normalDraws, type RandomStream, randomStream } from '../../src/statistics/index.js';
import type { DryingDesign } from './drying-trials.js';

/** Treated walls dry at one and a half times the rate of untreated ones, and change by this much less. */
const trueRatio = 1.5;
const trueDifference = -1.5;
const untreatedRate = 0.006;
/** Amplitude of the yearly cycle that all walls share. */
const cycle = 0.7;
const ratioDays = Array.from({ length: 14 }, (_, visit) => 42 * visit);
const spread = { pairs: 0.2, walls: 0.25, lost: 1.5, dry: 1, visits: 0.3, changes: 0.8, pairChanges: 0.6, levels: 1 };

const seasonOf = (time_d: number) => cycle * Math.cos((2 * Math.PI * time_d) / 365.2425);

interface PlacedNumber {
  readonly wall: string;
  readonly arm: string;
  readonly side: 'treated' | 'untreated';
  readonly block: string;
}

function place(w: number, design: DryingDesign): PlacedNumber {
  const side = w % 2 === 0 ? 'treated' : 'untreated';
  return { wall: `W${w}`, arm: side, side, block: design === 'pairs' ? `B${Math.floor(w / 2)}` : '' };
}

function drawsFrom(stream: RandomStream, count: number): (deviation: number) => number {
  const draws = normalDraws(stream, count);
  let next = 0;
  return (deviation) => deviation * draws[next++]!;
}

/** Walls that dry along exponentials with a yearly cycle on top, one mean a visit, fourteen visits in 546 days. */
function seasonalDrying(stream: RandomStream, walls: number, design: DryingDesign): readonly DryingObservation[] {
  const draw = drawsFrom(stream, walls * (4 + ratioDays.length));
  const ofPairs = Array.from({ length: walls / 2 }, () => draw(spread.pairs));
  return Array.from({ length: walls }, (_, w) => {
    const placed = place(w, design);
    const own = draw(spread.walls) + (design === 'pairs' ? ofPairs[Math.floor(w / 2)]! : 0);
    const rate = untreatedRate * (placed.side === 'treated' ? trueRatio : 1) * Math.exp(own);
    const [lost, dry] = [7 + draw(spread.lost), 4 + draw(spread.dry)];
    return ratioDays.map((time_d) => ({
      ...placed,
      station: '',
      time_d,
      moisture: dry + lost * Math.exp(-rate * time_d) + seasonOf(time_d) + draw(spread.visits),
    }));
  }).flat();
}

/** Four visits before and four a year later, treated walls read three weeks after the others, so that the season tells. */
function visitsOfSeasons(stream: RandomStream, walls: number, design: DryingDesign): readonly WallVisit[] {
  const draw = drawsFrom(stream, walls * (3 + 8));
  const ofPairs = Array.from({ length: walls / 2 }, () => draw(spread.pairChanges));
  return Array.from({ length: walls }, (_, w) => {
    const placed = place(w, design);
    const isTreated = placed.side === 'treated';
    const level = 8 + draw(spread.levels);
    const change = -1 + draw(spread.changes) + (design === 'pairs' ? ofPairs[Math.floor(w / 2)]! : 0);
    return Array.from({ length: 8 }, (_, visit): WallVisit => {
      const isAfter = visit >= 4;
      // Treated walls are read later in the second spring only: their season differs between the windows.
      const time_d = 60 + 25 * (visit % 4) + (isAfter ? 365 + (isTreated ? 21 : 0) : 0);
      return {
        ...placed,
        day: addDays('2024-01-01', time_d),
        window: isAfter ? 'after' : 'before',
        moisture:
          level + (isAfter ? change + (isTreated ? trueDifference : 0) : 0) + seasonOf(time_d) + draw(spread.visits),
      };
    });
  }).flat();
}

const season = { id: 'season-adjusted', label: 'season', season: true, weather: [] };

export interface AdjustedMethod {
  readonly id: string;
  readonly label: string;
  readonly truth: number;
  readonly answer: (stream: RandomStream, walls: number, design: DryingDesign) => Answer;
}

export const adjustedMethods: readonly AdjustedMethod[] = [
  {
    id: 'rate-ratio-season',
    label: 'Ratio of rates, all walls in one fit, adjusted for a yearly cycle',
    truth: trueRatio,
    answer: (stream, walls, design) =>
      dryingRateRatio(seasonalDrying(stream, walls, design), { level: 0.95, season: true }),
  },
  {
    id: 'season-adjusted',
    label: 'Difference of changes, adjusted for a yearly cycle',
    truth: trueDifference,
    answer: (stream, walls, design) =>
      adjustedDifference(visitsOfSeasons(stream, walls, design), season, { level: 0.95, unit: '% by mass' }),
  },
];

export interface AdjustedCoverage {
  readonly id: string;
  readonly label: string;
  readonly design: DryingDesign;
  readonly walls: number;
  readonly seed: number;
  readonly trials: number;
  readonly intervals: number;
  readonly held: number;
  readonly heldAtFirst: number;
  /** Of the interval, or of the logarithm of a ratio. */
  readonly meanHalfWidth: number;
}

export const firstAdjusted = 6;

/** How often a method's 95 % interval holds the truth with a season in the readings. */
export function countAdjustedCoverage(
  { id, label, truth, answer }: AdjustedMethod,
  design: DryingDesign,
  walls: number,
  trials: number,
  seed: number,
): AdjustedCoverage {
  const stream = randomStream(seed);
  let [intervals, held, heldAtFirst, halfWidths] = [0, 0, 0, 0];
  for (let number = 0; number < trials; number++) {
    const made = answer(stream, walls, design);
    if (made.kind === 'not-estimated' || made.estimate.interval === undefined) continue;
    const { lower, upper } = made.estimate.interval;
    const holds = Number(lower <= truth && truth <= upper);
    intervals++;
    held += holds;
    if (number < firstAdjusted) heldAtFirst += holds;
    halfWidths += (made.estimate.unit === 'ratio' ? Math.log(upper / lower) : upper - lower) / 2;
  }
  const meanHalfWidth = halfWidths / Math.max(1, intervals);
  return { id, label, design, walls, seed, trials, intervals, held, heldAtFirst, meanHalfWidth };
}
