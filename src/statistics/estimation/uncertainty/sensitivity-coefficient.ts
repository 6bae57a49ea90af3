import { StatisticsError } from '../../statistics-error.js';
import type { InputQuantity } from './input-quantity.js';
import { type MeasurementModel, valuesByName } from './measurement-model.js';

/** Small against the input's own spread, and wide enough that subtraction keeps ten digits or so. */
const partOfUncertainty = 0.1;
/** No smaller part of the value, or subtraction would leave nothing but rounding. */
const partOfValue = 1e-6;

/**
 * How much a result moves for a unit of one input, by central differences at two steps, combined so that the error of
 * second order in the step cancels (Richardson). The steps are a tenth and a twentieth of the standard uncertainty, and
 * not below a millionth of the value.
 *
 * @throws StatisticsError `not-finite` where the model gives no number that close to the inputs' values
 * @example
 * const side = { name: 'side', value: 3, standardUncertainty: 0.1, distribution: 'normal' };
 * sensitivityCoefficient(({ side }) => side ** 2, [side], side) // 6
 * @source JCGM 100:2008, 5.1.3 note 2, takes the step equal to the uncertainty (from memory); ours is smaller, so that
 *   curvature does not pass for slope
 */
export function sensitivityCoefficient<Name extends string>(
  model: MeasurementModel<Name>,
  inputs: readonly InputQuantity<Name>[],
  input: InputQuantity<Name>,
): number {
  const values = valuesByName('sensitivityCoefficient', inputs);
  const step =
    Math.max(input.standardUncertainty * partOfUncertainty, Math.abs(input.value) * partOfValue) || partOfValue;
  const slope = (width: number): number => {
    // The step as the machine holds it, so that the divisor is the difference really taken.
    const [upper, lower] = [input.value + width, input.value - width];
    const rise = model({ ...values, [input.name]: upper }) - model({ ...values, [input.name]: lower });
    return rise / (upper - lower);
  };
  const coefficient = (4 * slope(step / 2) - slope(step)) / 3;
  if (!Number.isFinite(coefficient))
    throw new StatisticsError(
      'sensitivityCoefficient',
      'not-finite',
      `needs a model that gives a finite result near ${input.name} = ${input.value}; state its sensitivity by formula`,
    );
  return coefficient;
}
