import { householder, inverseTriangle } from '../linear/householder.js';
import type { Point } from './point.js';

export interface DampedStep {
  /** One for every parameter; zero for those that are held. */
  readonly step: Float64Array;
  /** By how much the sum of squares would fall if the model were straight. */
  readonly promised: number;
}

/**
 * Solves the residuals on the derivatives with the damping times the squared scaled length of the step as penalty, by QR of
 * the derivatives over a diagonal. Moré, in Watson (ed.), Numerical Analysis (1978), Lecture Notes in Mathematics 630.
 *
 * @param moving indices of the parameters that may move
 * @param target what the step should explain: the residuals, or what bends them
 */
export function dampedStep(
  point: Point,
  moving: readonly number[],
  scales: Float64Array,
  damping: number,
  target: Float64Array = point.residuals,
): DampedStep {
  const rows = target.length;
  const count = moving.length;
  const tall = rows + count;
  const entries = new Float64Array(tall * (count + 1));
  moving.forEach((parameter, column) => {
    for (let row = 0; row < rows; row++) {
      entries[column * tall + row] = point.derivatives[parameter * rows + row]! / scales[parameter]!;
    }
    entries[column * tall + rows + column] = Math.sqrt(damping);
  });
  entries.set(target, count * tall);
  const inverse = inverseTriangle(householder(entries, tall, count));
  const scaled = moving.map((_, row) => {
    let sum = 0;
    for (let k = row; k < count; k++) sum += inverse[row * count + k]! * entries[count * tall + k]!;
    return sum;
  });
  const step = new Float64Array(scales.length);
  moving.forEach((parameter, column) => {
    step[parameter] = scaled[column]! / scales[parameter]!;
  });
  const explained = entries.subarray(count * tall, count * tall + count).reduce((sum, value) => sum + value * value, 0);
  const length = scaled.reduce((sum, value) => sum + value * value, 0);
  return { step, promised: explained + damping * length };
}
