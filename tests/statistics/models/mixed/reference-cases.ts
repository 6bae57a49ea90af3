import { readFileSync } from 'node:fs';
import type { DesignColumn } from '../../../../src/statistics/models/linear/design-matrix.js';
import type { MixedModel } from '../../../../src/statistics/models/mixed/mixed-model.js';

export interface Estimates {
  readonly coefficients: readonly number[];
  readonly standardErrors: readonly number[];
  readonly terms: readonly { readonly standardDeviations: readonly number[]; readonly covariance: number[][] }[];
  readonly residual: number;
  readonly logLikelihood: number;
}

interface Tested {
  readonly standardError: number;
  readonly degreesOfFreedom: number;
}

interface JointTested {
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly scale: number;
}

export interface ReferenceCase {
  readonly name: string;
  readonly boundary: boolean;
  readonly boundaryUnderMl: boolean;
  readonly response: readonly number[];
  readonly fixed: readonly DesignColumn[];
  readonly random: readonly { readonly groups: readonly string[]; readonly columns: readonly DesignColumn[] }[];
  readonly modes: Readonly<Record<string, { readonly levels: readonly string[]; readonly effects: number[][] }>>;
  readonly reml: Estimates;
  readonly ml: Estimates;
  readonly tests: {
    readonly single: readonly { readonly satterthwaite: Tested; readonly kenwardRoger: Tested }[];
    readonly adjusted: number[][];
    readonly joint?: {
      readonly rows: readonly number[];
      readonly satterthwaite: JointTested;
      readonly kenwardRoger: JointTested;
    };
  };
}

export function readReference<T>(folder: string, name: string): readonly T[] {
  const path = new URL(`../../../reference/${folder}/${name}.json`, import.meta.url);
  return JSON.parse(readFileSync(path, 'utf8')).cases;
}

export function mixedModelCases(): readonly ReferenceCase[] {
  return readReference<ReferenceCase>('mixed', 'mixed-models');
}

export function modelOf(example: ReferenceCase, method: 'reml' | 'ml'): MixedModel {
  return {
    response: example.response,
    fixed: { columns: example.fixed },
    random: example.random.map((term, at) => ({ name: `term ${at + 1}`, ...term })),
    method,
  };
}

/** The largest difference, relative to the size of the expected value. */
export function relativeError(actual: number, expected: number): number {
  return Math.abs(actual - expected) / Math.max(Math.abs(expected), Number.MIN_VALUE);
}
