import {
  covariate,
  type DesignMatrix,
  type DesignTerm,
  designMatrix,
  type FactorTerm,
  factor,
  fitMixedModel,
  interaction,
  intercept,
  type LeastSquaresFit,
  leastSquares,
  type MixedModelFit,
  type RandomTerm,
} from '../../src/statistics/index.js';
import type { SimulatedReading, SimulatedTrial, SimulatedWall } from './simulated-trial.js';

/** Weights of the effect in a model of all readings, and in one of the walls. */
export const EFFECT_IN_READINGS = { 'arm: treated × after': 1 };
export const EFFECT_IN_WALLS = { 'arm: treated': 1 };

/** All readings on visit, arm, and arm after treatment; observations are taken as independent. */
export function readingsFit(readings: readonly SimulatedReading[]): LeastSquaresFit {
  return leastSquares(readingDesign(readings), valuesOf(readings));
}

/** The same with a level of its own for each wall, which is how "repeated measures" are often and wrongly settled. */
export function naiveReadingsFit(readings: readonly SimulatedReading[]): LeastSquaresFit {
  const walls = factor(
    'wall',
    readings.map(({ wall }) => wall),
  );
  return leastSquares(designMatrix([walls, visitOf(readings), effectOf(readings)]), valuesOf(readings));
}

/** Walls differ in level and in change, stations of a wall in level; blocks too, where there are any. */
export function mixedFit({ readings }: SimulatedTrial, groups: 'walls' | 'blocks-and-walls'): MixedModelFit {
  const columns = [
    { name: 'level', values: readings.map(() => 1) },
    { name: 'change', values: readings.map(({ after }) => Number(after)) },
  ];
  const random: RandomTerm[] = [
    { name: 'wall', groups: readings.map(({ wall }) => wall), columns, covariance: 'diagonal' },
    { name: 'station', groups: readings.map(({ station }) => station) },
  ];
  const blocks: RandomTerm[] =
    groups === 'walls'
      ? []
      : [{ name: 'block', groups: readings.map(({ block }) => block), columns, covariance: 'diagonal' }];
  return fitMixedModel({
    response: valuesOf(readings),
    fixed: readingDesign(readings),
    random: [...blocks, ...random],
    method: 'reml',
  });
}

/** Changes of the walls, or their after values, on arm and further terms. */
export function wallsFit(
  walls: readonly SimulatedWall[],
  response: 'change' | 'after',
  further: readonly DesignTerm[] = [],
): LeastSquaresFit {
  const design = designMatrix([intercept(), armOf(walls), ...further]);
  return leastSquares(
    design,
    walls.map((wall) => wall[response]),
  );
}

export function beforeOf(walls: readonly SimulatedWall[]): DesignTerm {
  return covariate(
    'before',
    walls.map(({ before }) => before),
  );
}

export function blockOf(walls: readonly SimulatedWall[]): DesignTerm {
  return factor(
    'block',
    walls.map(({ block }) => block),
    { reference: walls[0]!.block },
  );
}

function readingDesign(readings: readonly SimulatedReading[]): DesignMatrix {
  return designMatrix([intercept(), visitOf(readings), armOf(readings), effectOf(readings)]);
}

function effectOf(readings: readonly SimulatedReading[]): DesignTerm {
  return interaction(
    armOf(readings),
    covariate(
      'after',
      readings.map(({ after }) => Number(after)),
    ),
  );
}

function visitOf(readings: readonly SimulatedReading[]): FactorTerm {
  return factor(
    'visit',
    readings.map(({ visit }) => visit),
    { reference: 'visit 1' },
  );
}

function armOf(units: readonly { readonly treated: boolean }[]): FactorTerm {
  return factor(
    'arm',
    units.map(({ treated }) => (treated ? 'treated' : 'control')),
    { reference: 'control' },
  );
}

function valuesOf(readings: readonly SimulatedReading[]): number[] {
  return readings.map(({ value }) => value);
}
