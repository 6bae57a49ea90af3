import {
  type Answer,
  againstPassMark,
  type Estimate,
  secondaryOutcomes,
  surrogateAudit,
} from '../../analysis/index.js';
import { verdictCode } from '../../analysis/verdict-code.js';
import type { InstrumentFacts } from '../../findings/instruments/instrument-facts.js';
import { present } from '../../plain/present.js';
import { hasWindows } from '../../trial/index.js';
import type { Facts } from '../threats/facts.js';
import type { TrialVerdict } from '../verdict-of-trial.js';
import { belowTheLimit, calibratedAnswers } from './instrument-choices.js';
import type { Judging } from './judging.js';

interface Companions {
  readonly analyses: readonly Answer[];
  /** Adjusted for season or weather. */
  readonly adjusted: readonly Answer[];
  readonly instruments: readonly InstrumentFacts[];
}

/**
 * What stands beside a verdict: every other defensible answer, further outcomes, the pass mark and the audit of stand-ins. Absent
 * where there are no windows, because then there is no answer.
 *
 * @example judgeTrial(verdictOfTrial(trial, 1), { analyses, adjusted, instruments })?.agreement // { agree: 14, of: 15 }
 */
export function judgeTrial(
  { trial, facts, numbers, readings, design }: TrialVerdict,
  { analyses, adjusted, instruments }: Companions,
): Judging | undefined {
  const { primary } = facts;
  if (!hasWindows(trial) || design.walls.length === 0) return undefined;
  const choices = [
    ...analyses,
    ...adjusted,
    ...numbers.choices,
    ...calibratedAnswers(trial, instruments),
    ...belowTheLimit(instruments),
  ];
  const passMark = againstPassMark(trial, design);
  return {
    ...numbers,
    choices,
    agreement: agreementOf(facts, choices),
    secondary: secondaryOutcomes(trial, readings, primary.kind === 'estimated' ? primary.estimate.pValue : undefined),
    ...present({ passMark }),
    standIns: standInsOf({ facts, readings, design }),
  };
}

function agreementOf({ trial, primary }: Facts, choices: readonly Answer[]): Judging['agreement'] {
  const { margin, outcome } = trial.protocol;
  if (primary.kind !== 'estimated') return { agree: 0, of: 0 };
  const codeOf = ({ interval }: Estimate) => interval && verdictCode(interval, margin, outcome.better);
  const codes = [
    primary.estimate,
    ...choices.flatMap((one) => (one.kind === 'estimated' ? [one.estimate] : [])),
  ].flatMap((estimate) => codeOf(estimate) ?? []);
  return { agree: codes.filter((code) => code === codes[0]).length, of: codes.length };
}

function standInsOf({
  facts,
  readings,
  design,
}: Pick<TrialVerdict, 'facts' | 'readings' | 'design'>): Judging['standIns'] {
  const { instruments, outcome } = facts.trial.protocol;
  return instruments
    .filter(({ instrument }) => instrument !== outcome.instrument)
    .flatMap(({ instrument, kind }) => {
      const own = readings.filter((reading) => reading.instrument === instrument);
      if (own.length === 0) return [];
      const audit = surrogateAudit(facts.trial, design, own, { instrument });
      return [{ instrument, isVoltage: kind === 'potential', audit }];
    });
}
