import type { DryingModelKind } from '../drying/index.js';

const shapes: Readonly<Record<DryingModelKind, string>> = {
  'constant-rate': 'constant rate',
  'square-root': 'square root of time',
  exponential: 'exponential approach to an equilibrium',
  'two-stage': 'constant rate, then falling rate',
};

/**
 * What the shape of a drying curve is called.
 *
 * @example dryingShapeInWords('square-root') // 'square root of time'
 */
export function dryingShapeInWords(kind: DryingModelKind): string {
  return shapes[kind];
}
