import type { Answer, PassMarkFound } from '../../analysis/index.js';
import { labelOf, reasonInWords } from '../../labels/index.js';
import type { Judging, StandIn } from '../../opinion/judging/judging.js';
import { checksJson } from './checks-json.js';

/** The judging as `opinion.json` holds it: choices, negative controls and stand-ins, with their numbers. */
export function judgingJson(judging: Judging) {
  return {
    agreement: { agree: judging.agreement.agree, of: judging.agreement.of },
    choices: judging.choices.map(answerJson),
    nothing: judging.nothing.map(answerJson),
    secondary: judging.secondary.map(({ answer, inSequence, adjustedPValue }) => ({
      ...answerJson(answer),
      inSequence: inSequence ?? null,
      adjustedPValue: adjustedPValue ?? null,
    })),
    passMark: judging.passMark === undefined ? null : passMarkJson(judging.passMark),
    standIns: judging.standIns.map(standInJson),
    ...checksJson(judging),
  };
}

function passMarkJson({ answer, reached }: PassMarkFound) {
  return { ...answerJson(answer), ...(reached === undefined ? {} : { reached: { ...reached } }) };
}

function answerJson(answer: Answer) {
  if (answer.kind === 'not-estimated') {
    const { id, reason } = answer.notEstimated;
    return { id, label: labelOf(answer.notEstimated), reason: reasonInWords(reason) };
  }
  const { id, unit, estimate, interval, pValue } = answer.estimate;
  return {
    ...{ id, label: labelOf(answer.estimate), unit, estimate },
    interval: interval === undefined ? null : { level: interval.level, lower: interval.lower, upper: interval.upper },
    pValue: pValue ?? null,
  };
}

function standInJson({ instrument, audit }: StandIn) {
  if ('code' in audit) return { instrument, evidence: 'indirect', reason: reasonInWords(audit) };
  return {
    instrument,
    evidence: 'indirect',
    when: audit.when,
    delay_days: audit.delay_days,
    lags: audit.lags.map(({ day, delay_days, prediction }) => ({
      day,
      delay_days,
      prediction: answerJson(prediction),
    })),
    arms: audit.arms.map(({ arm, walls, change, turned }) => ({ arm, walls, change, turned })),
    effect: answerJson(audit.effectOnStandIn),
    prediction: answerJson(audit.prediction),
    shareExplained: answerJson(audit.shareExplained),
  };
}
