import fc from 'fast-check';
import type { MixedModel, RandomTerm } from '../../../../src/statistics/models/mixed/mixed-model.js';
import { normalDraws, randomStream } from '../../../../src/statistics/resampling/random/index.js';

/** Small unbalanced trials: stations in walls, visits crossed with both, an arm for each wall, some readings missing. */
export interface SimulatedTrial {
  readonly response: number[];
  readonly one: number[];
  readonly arm: number[];
  readonly time: number[];
  readonly wall: string[];
  readonly station: string[];
  readonly visit: number[];
  readonly instrument: string[];
}

export function simulatedTrial(seed: number, walls: number, stations: number, visits: number): SimulatedTrial {
  const stream = randomStream(seed);
  const wallEffects = normalDraws(stream, 2 * walls);
  const stationEffects = normalDraws(stream, walls * stations);
  const visitEffects = normalDraws(stream, visits);
  const trial: SimulatedTrial = {
    response: [],
    one: [],
    arm: [],
    time: [],
    wall: [],
    station: [],
    visit: [],
    instrument: [],
  };
  for (let wall = 0; wall < walls; wall++) {
    for (let station = 0; station < stations; station++) {
      const draws = normalDraws(stream, 2 * visits);
      let before = 0;
      for (let visit = 0; visit < visits; visit++) {
        before = 0.4 * before + draws[visit]!;
        if (draws[visits + visit]! > 1.2) continue;
        const instrument = (wall + station + visit) % 3 === 0 ? 'old' : 'new';
        const effect = wallEffects[wall]! + 0.3 * wallEffects[walls + wall]! * visit;
        const nested = 0.7 * stationEffects[wall * stations + station]!;
        const noise = before * (instrument === 'old' ? 1.5 : 0.8);
        trial.response.push(12 - 0.2 * visit * (wall % 2) + effect + nested + 0.5 * visitEffects[visit]! + noise);
        trial.one.push(1);
        trial.arm.push(wall % 2);
        trial.time.push(visit);
        trial.wall.push(`wall ${wall}`);
        trial.station.push(`wall ${wall}, station ${station}`);
        trial.visit.push(visit);
        trial.instrument.push(instrument);
      }
    }
  }
  return trial;
}

export const shapes = [
  'nested',
  'slopes',
  'diagonal slopes',
  'crossed',
  'autoregressive',
  'by-group',
  'autoregressive-by-group',
] as const;

export type Shape = (typeof shapes)[number];

export function modelOfShape(trial: SimulatedTrial, shape: Shape, method: 'reml' | 'ml'): MixedModel {
  const columns = [
    { name: 'intercept', values: trial.one },
    { name: 'arm', values: trial.arm },
    { name: 'time', values: trial.time },
  ];
  const slopes = [columns[0]!, columns[2]!];
  const wall: RandomTerm = { name: 'wall', groups: trial.wall };
  const station: RandomTerm = { name: 'station', groups: trial.station };
  const random: Record<Shape, readonly RandomTerm[]> = {
    nested: [wall, station],
    slopes: [{ ...wall, columns: slopes }, station],
    'diagonal slopes': [{ ...wall, columns: slopes, covariance: 'diagonal' }],
    crossed: [wall, { name: 'visit', groups: trial.visit }, station],
    autoregressive: [wall, { name: 'visit', groups: trial.visit }],
    'by-group': [wall, station],
    'autoregressive-by-group': [wall],
  };
  return {
    response: trial.response,
    fixed: { columns },
    random: random[shape],
    residual: residualOfShape(trial, shape),
    method,
  };
}

function residualOfShape({ station: series, visit: steps, instrument: groups }: SimulatedTrial, shape: Shape) {
  switch (shape) {
    case 'autoregressive':
      return { kind: shape, series, steps };
    case 'by-group':
      return { kind: shape, groups };
    case 'autoregressive-by-group':
      return { kind: shape, series, steps, groups };
    default:
      return { kind: 'equal' as const };
  }
}

export const arbitraryModel: fc.Arbitrary<MixedModel> = fc
  .record({
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    walls: fc.integer({ min: 4, max: 7 }),
    stations: fc.integer({ min: 2, max: 3 }),
    visits: fc.integer({ min: 4, max: 5 }),
    shape: fc.constantFrom(...shapes),
    method: fc.constantFrom('reml' as const, 'ml' as const),
  })
  .map(({ seed, walls, stations, visits, shape, method }) =>
    modelOfShape(simulatedTrial(seed, walls, stations, visits), shape, method),
  );
