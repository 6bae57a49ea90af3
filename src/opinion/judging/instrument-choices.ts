import type { Answer } from '../../analysis/index.js';
import type { AnswerResult, InstrumentFacts } from '../../findings/instruments/instrument-facts.js';
import type { Trial } from '../../trial/index.js';

/** What the other instruments answer on the outcome's scale, where cores calibrate them. */
export function calibratedAnswers({ protocol }: Trial, instruments: readonly InstrumentFacts[]): readonly Answer[] {
  return instruments
    .filter(({ isOutcome }) => !isOutcome)
    .flatMap(({ instrument, answers }) => {
      const one = answers.find(({ scale, unit }) => scale === 'calibrated' && unit === protocol.outcome.unit);
      if (one === undefined) return [];
      return answerFrom(one.result, {
        ...{ id: `calibrated-${instrument}`, label: `By ${instrument}, calibrated with cores`, unit: one.unit },
        quantity: `treated less untreated change of ${protocol.outcome.quantity}, by ${instrument}`,
        method: 'the primary method on calibrated readings, the interval widened by the calibration’s slope',
        assumptions: ['the calibration holds alike before and after, and in both arms'],
      });
    });
}

/** The outcome with readings below the detection limit estimated instead of left out. */
export function belowTheLimit(instruments: readonly InstrumentFacts[]): readonly Answer[] {
  return instruments.flatMap(({ isOutcome, unit, belowDetection }) => {
    if (!isOutcome || belowDetection === undefined) return [];
    const named = (id: string, label: string, method: string, assumption: string) => ({
      ...{ id, label, unit, quantity: 'treated less untreated change' },
      ...{ method: `the primary method, readings below the limit ${method}`, assumptions: [assumption] },
    });
    const { likelihood, productLimit } = belowDetection;
    return [
      ...answerFrom(
        likelihood,
        named(
          'below-likelihood',
          'Below the limit, by maximum likelihood',
          'by maximum likelihood',
          'readings of a wall are normal about its mean, with one spread for all',
        ),
      ),
      ...answerFrom(
        productLimit,
        named(
          'below-product-limit',
          'Below the limit, by Kaplan and Meier',
          'by the product limit',
          'readings below the limit lie where the others of their wall and window leave room',
        ),
      ),
    ];
  });
}

interface Described {
  readonly id: string;
  readonly label: string;
  readonly quantity: string;
  readonly unit: string;
  readonly method: string;
  readonly assumptions: readonly string[];
}

function answerFrom(result: AnswerResult, described: Described): readonly Answer[] {
  if (result.kind === 'not-computed') return [];
  const { estimate, interval, walls } = result.value;
  return [{ kind: 'estimated', estimate: { ...described, estimate, interval, walls } }];
}
