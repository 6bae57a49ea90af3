import type { Answer, Estimate } from '../../analysis/index.js';
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
        ...{ id: `calibrated-${instrument}`, about: { kind: 'instrument', instrument }, unit: one.unit },
        method: { kind: 'calibrated', quantity: protocol.outcome.quantity },
      });
    });
}

/** The outcome with readings below the detection limit estimated instead of left out. */
export function belowTheLimit(instruments: readonly InstrumentFacts[]): readonly Answer[] {
  return instruments.flatMap(({ isOutcome, unit, belowDetection }) => {
    if (!isOutcome || belowDetection === undefined) return [];
    const { likelihood, productLimit } = belowDetection;
    return [
      ...answerFrom(likelihood, { id: 'below-likelihood', unit, method: { kind: 'below-likelihood' } }),
      ...answerFrom(productLimit, { id: 'below-product-limit', unit, method: { kind: 'below-product-limit' } }),
    ];
  });
}

type Described = Pick<Estimate, 'id' | 'about' | 'unit' | 'method'>;

function answerFrom(result: AnswerResult, described: Described): readonly Answer[] {
  if (result.kind === 'not-computed') return [];
  const { estimate, interval, walls } = result.value;
  return [{ kind: 'estimated', estimate: { ...described, estimate, interval, walls } }];
}
