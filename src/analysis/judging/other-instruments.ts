import type { MoistureReading } from '../../moisture/index.js';
import { fixedSequence, holm, pooledSpread, type SequenceStep } from '../../statistics/index.js';
import type { InstrumentKind, Outcome, Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import type { ComparisonDesign } from '../comparison-design.js';
import type { Named } from '../estimate.js';
import { changesOn } from '../wall-groups.js';
import { answerFromDesign, designFromReadings } from './answer-from-readings.js';

export interface InstrumentAnswer {
  readonly instrument: string;
  readonly kind: InstrumentKind;
  /** `weighed` cannot follow a hope; `hand-held` can. */
  readonly sort: 'weighed' | 'hand-held' | 'left in place';
  /** On the instrument's own scale. */
  readonly answer: Answer;
  /** The difference over the pooled standard deviation of the walls' changes: comparable between instruments. */
  readonly standardised?: number;
}

/**
 * The primary comparison by every instrument that can tell of moisture, each on its own scale: whether what is weighed and what
 * is held to the wall by hand tell one story. Voltages are left to the audit of stand-ins.
 *
 * @example answersByInstrument(trial, readings).map(({ sort }) => sort) // ['weighed', 'hand-held']
 */
export function answersByInstrument(trial: Trial, readings: readonly MoistureReading[]): readonly InstrumentAnswer[] {
  return trial.protocol.instruments
    .filter(({ kind }) => kind !== 'potential')
    .flatMap(({ instrument, kind }) => {
      const own = readings.filter((reading) => reading.instrument === instrument);
      if (own.length === 0) return [];
      const asOutcome = withOutcome(trial, { ...trial.protocol.outcome, instrument });
      const design = designFromReadings(asOutcome, own);
      const answer = answerFromDesign(asOutcome, design, {
        id: `by-${instrument}`,
        about: { kind: 'instrument', instrument },
      });
      return [{ instrument, kind, sort: sorts[kind], answer, ...standardised(answer, design) }];
    });
}

const sorts: Readonly<Record<InstrumentKind, InstrumentAnswer['sort']>> = {
  gravimetric: 'weighed',
  carbide: 'weighed',
  microwave: 'hand-held',
  resistance: 'hand-held',
  capacitance: 'hand-held',
  potential: 'hand-held',
  direct: 'hand-held',
  'humidity-probe': 'left in place',
  'embedded-sensor': 'left in place',
};

function standardised(answer: Answer, { walls }: ComparisonDesign): { readonly standardised?: number } {
  const [treated, untreated] = [changesOn(walls, 'treated'), changesOn(walls, 'untreated')];
  if (answer.kind !== 'estimated' || treated.length < 2 || untreated.length < 2) return {};
  const { standardDeviation } = pooledSpread(treated, untreated);
  return standardDeviation > 0 ? { standardised: answer.estimate.estimate / standardDeviation } : {};
}

/** The trial as if another outcome were the primary one. */
function withOutcome(trial: Trial, outcome: Outcome): Trial {
  return { ...trial, protocol: { ...trial.protocol, outcome } };
}

export interface SecondaryOutcome {
  readonly outcome: Outcome;
  readonly answer: Answer;
  /** Tested in the plan's order, each at the full level, until one finds nothing. */
  readonly inSequence?: SequenceStep['outcome'];
  /** Holm's p-value over all secondary outcomes. */
  readonly adjustedPValue?: number;
}

/**
 * The outcomes beside the primary one, in the plan's order, adjusted for being several. They never touch the verdict.
 *
 * @example
 * const protocol = { ...trial.protocol, secondary: [{ instrument: 'microwave', quantity: 'index', unit: '', better: 'lower' }] };
 * secondaryOutcomes({ ...trial, protocol }, readings, 0.001)[0].inSequence // 'rejected'
 */
export function secondaryOutcomes(
  trial: Trial,
  readings: readonly MoistureReading[],
  primaryPValue: number | undefined,
): readonly SecondaryOutcome[] {
  const outcomes = trial.protocol.secondary ?? [];
  const answers = outcomes.map((outcome): SecondaryOutcome => {
    const asOutcome = withOutcome(trial, outcome);
    const design = designFromReadings(
      asOutcome,
      readings.filter(({ instrument }) => instrument === outcome.instrument),
    );
    const { quantity, instrument } = outcome;
    const named: Named = { id: `secondary-${instrument}`, about: { kind: 'outcome', quantity, instrument } };
    return { outcome, answer: answerFromDesign(asOutcome, design, named) };
  });
  const tested = answers.map(({ answer }) => (answer.kind === 'estimated' ? (answer.estimate.pValue ?? 1) : 1));
  // The primary outcome opens the sequence: after it finds nothing, nothing beside it is tested.
  const steps = fixedSequence([primaryPValue ?? 1, ...tested], { alpha: 1 - trial.protocol.confidence }).slice(1);
  const adjusted = holm(tested);
  return answers.map((one, at) => {
    const [step, adjustedPValue] = [steps[at], adjusted[at]];
    if (one.answer.kind !== 'estimated' || step === undefined || adjustedPValue === undefined) return one;
    return { ...one, inSequence: step.outcome, adjustedPValue };
  });
}
