import { normalDraws, type RandomStream } from '../../statistics/index.js';
import { assumed, percentByMass } from './assumed-wall.js';
import { step_d, treatedWeek, weeks } from './simulated-days.js';
import type { SimulatedDesign, SimulatedTreatment } from './simulated-design.js';
import { cell_mm, cellsOfWall, type SimulatedWall } from './simulated-walls.js';
import { stepWall, type WallConditions } from './wall-water.js';

/** What the weather and a leak do to one wall, week by week. */
export interface WallWeather {
  /** Of both faces where wet, mm a day, before what is the wall’s own. */
  readonly evaporation_mm_d: Float64Array;
  /** Logarithm of what the wall’s own air does beside the season. */
  readonly wander: Float64Array;
  /** Weeks in which a leak feeds it, from and to; absent where none does. */
  readonly leak?: { readonly from: number; readonly to: number };
}

/** Water contents in % by mass by week of a visit, at each station from the ground up. */
export type ContentsAtVisits = ReadonlyMap<number, readonly number[]>;

/** Correlated from week to week, of one standard deviation. */
export function wanderOfWall({ autocorrelation }: SimulatedDesign, stream: RandomStream): Float64Array {
  const draws = normalDraws(stream, weeks + 1);
  const fresh = Math.sqrt(1 - autocorrelation ** 2);
  for (let week = 1; week <= weeks; week++)
    draws[week] = autocorrelation * (draws[week - 1] as number) + fresh * (draws[week] as number);
  return draws;
}

/** The wall as it was read, and as it would have been without its treatment where that was asked for. */
export interface CoursesOfWall {
  readonly recorded: ContentsAtVisits;
  /** The same as recorded on a wall that nothing was done to; absent where it was not asked for. */
  readonly without?: ContentsAtVisits;
}

/**
 * The wall until the day of treatment, then on from there: with the treatment and, where asked for, as it would have been without.
 *
 * @param treatment nothing on an untreated wall: there is then one course only
 */
export function coursesOfWall(
  { heights_mm }: SimulatedDesign,
  wall: SimulatedWall,
  weather: WallWeather,
  { visits, treatment, withTruth }: Following,
): CoursesOfWall {
  const weights = heights_mm.map(weightsAround);
  const wanted = new Set(visits);
  const last = Math.max(...visits);
  const run = (from: number, to: number, cells: Float64Array, acting: SimulatedTreatment) => {
    const seen: [number, readonly number[]][] = [];
    const conditionsIn = conditionsOf(wall, weather, acting);
    for (let week = from; week <= to; week++) {
      stepWall(cells, wall.body, conditionsIn(week), step_d);
      if (wanted.has(week)) seen.push([week, stationsOf(cells, wall, weights)]);
    }
    return seen;
  };
  const cells = startOf(wall, weather);
  const before = run(1, treatedWeek, cells, nothing);
  const counterfactual = withTruth && treatment.kind !== 'nothing' ? cells.slice() : undefined;
  const recorded = new Map([...before, ...run(treatedWeek + 1, last, cells, treatment)]);
  if (!withTruth) return { recorded };
  if (counterfactual === undefined) return { recorded, without: recorded };
  return { recorded, without: new Map([...before, ...run(treatedWeek + 1, last, counterfactual, nothing)]) };
}

interface Following {
  /** Weeks of the visits. */
  readonly visits: readonly number[];
  readonly treatment: SimulatedTreatment;
  readonly withTruth: boolean;
}

const nothing = { kind: 'nothing' } as const;

function meanOver(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** At rest in the air of the first year. */
function startOf(wall: SimulatedWall, weather: WallWeather): Float64Array {
  const { body } = wall;
  const mean = meanOver(weather.evaporation_mm_d.subarray(1, 53));
  const perMinute = (mean * wall.evaporation) / 1440;
  const height = body.sorptivity * Math.sqrt(body.thickness_mm / (2 * perMinute * body.wet));
  const cells = new Float64Array(cellsOfWall);
  for (let at = 0; at < cellsOfWall; at++)
    cells[at] = Math.max(assumed.atRest, body.wet * Math.min(1, Math.max(0, height / cell_mm - at)));
  return cells;
}

/** What works on the wall in a week, of which only the air and the supply change from week to week. */
function conditionsOf(
  wall: SimulatedWall,
  weather: WallWeather,
  treatment: SimulatedTreatment,
): (week: number) => WallConditions {
  const { leak } = weather;
  const salts = Math.max(0.75, 1 - assumed.saltsOnEvaporation_per_pct * wall.chloride_pct);
  // The response scales what the treatment does, not what it leaves.
  const factor = (kind: SimulatedTreatment['kind']) =>
    treatment.kind === kind && treatment.kind !== 'nothing' ? treatment.factor ** wall.response : 1;
  const own = wall.evaporation * salts * factor('evaporation');
  const ofSupply = factor('supply');
  const sorptivity = factor('sorptivity');
  const atRest = Math.min(0.9 * assumed.critical, assumed.atRest + assumed.saltsAtRest_per_pct * wall.chloride_pct);
  return (week) => {
    const changed = week > treatedWeek ? wall.ownSupply : 1;
    const leaking = leak !== undefined && week >= leak.from && week <= leak.to ? leakFactor : 1;
    const wander = Math.exp(assumed.wanderSpread * (weather.wander[week] as number));
    const evaporation_mm_d = own * wander * (weather.evaporation_mm_d[week] as number);
    return { evaporation_mm_d, atRest, supply: changed * leaking * ofSupply, sorptivity };
  };
}

/** By which a leak raises what a wall takes up. */
const leakFactor = 1.5;

/** How much each cell counts at a station, as the front is blurred. */
const knownWeights = new Map<number, Float64Array>();
function weightsAround(height_mm: number): Float64Array {
  const known = knownWeights.get(height_mm);
  if (known !== undefined) return known;
  const weights = Float64Array.from({ length: cellsOfWall }, (_, at) =>
    Math.exp(-0.5 * (((at + 0.5) * cell_mm - height_mm) / assumed.blurOfFront_mm) ** 2),
  );
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const shares = weights.map((weight) => weight / sum);
  knownWeights.set(height_mm, shares);
  return shares;
}

function stationsOf(cells: Float64Array, wall: SimulatedWall, weights: readonly Float64Array[]): readonly number[] {
  return weights.map((shares, station) => {
    let content = 0;
    for (let at = 0; at < cells.length; at++) content += (shares[at] as number) * (cells[at] as number);
    return percentByMass(content) + (wall.offsets_pp[station] as number);
  });
}
