import { adjustmentNames } from '../records/protocol/read-adjustments.js';
import { armRoles } from '../records/protocol/read-arms.js';
import { instrumentKinds } from '../records/protocol/read-instruments.js';
import { betterDirections } from '../records/protocol/read-outcome.js';
import { format, methods, selections, units } from '../records/protocol/read-protocol.js';
import { dryBasisUnits } from '../trial/index.js';
import type { FormChoices } from './form-choices.js';

/** A row of the sheet `plan`: a key of the plan, its answer, and why it is asked. */
export interface PlanQuestion {
  readonly key: string;
  /** Blank: not stated. What nobody has decided yet is never answered beforehand. */
  readonly answer: string | number;
  readonly why: string;
  readonly words?: readonly string[];
  readonly look?: 'day';
}

/** As many arms and instruments as the sheet has rows for. */
export const planArms = 3;
export const planInstruments = 3;

const yesOrNo = ['yes', 'no'];

/** The plan as questions, in the order in which they are best answered. */
export function planQuestions(choices: FormChoices): readonly PlanQuestion[] {
  const { outcome } = outcomeOf(choices);
  return [
    { key: 'format', answer: format, why: 'Leave this as it is: it says how the workbook is to be read.' },
    { key: 'title', answer: choices.title, why: 'What is the trial called?' },
    {
      key: 'claim',
      answer: '',
      why: 'What is put to the test, in one sentence? A claim without a size and a time can hardly fail.',
    },
    {
      key: 'plannedOn',
      answer: '',
      look: 'day',
      why: 'On which day was this plan fixed? A plan made after the readings may be made to fit them.',
    },
    ...outcome,
    {
      key: 'margin',
      answer: '',
      why: 'What is the smallest difference worth paying for, in that unit? Without it the verdict cannot say whether an effect is worth its price.',
    },
    { key: 'marginSource', answer: '', why: 'Where does that margin come from: an agreement, a standard?' },
    { key: 'confidence', answer: 0.95, why: 'At which level are the intervals? 0.95 is usual; at most 0.999.' },
    ...armQuestions(),
    ...instrumentQuestions(choices),
    {
      key: 'allocation.method',
      answer: '',
      words: methods,
      why: 'How did walls come to their arms? matched-pairs: randomised inside pairs; chosen: not by chance. Walls that somebody chose may differ beforehand.',
    },
    { key: 'allocation.by', answer: '', why: 'Who allocated them? Best is a person outside the trial.' },
    {
      key: 'allocation.unit',
      answer: '',
      words: units,
      why: 'Was each wall allocated by itself, or whole sites? What was allocated by itself is what counts.',
    },
    {
      key: 'allocation.seed',
      answer: '',
      why: 'Where a program drew: its seed, a whole number, so that anybody can draw again.',
    },
    {
      key: 'selection',
      answer: '',
      words: selections,
      why: 'Were walls picked for being wet? The wettest come down by themselves.',
    },
    ...windowQuestions(),
    {
      key: 'blinding.readers',
      answer: '',
      words: yesOrNo,
      why: 'Are those who read kept from knowing which walls were treated?',
    },
    { key: 'blinding.occupants', answer: '', words: yesOrNo, why: 'Are those who heat and air kept from knowing?' },
    { key: 'blinding.analyst', answer: '', words: yesOrNo, why: 'Is whoever computes kept from knowing?' },
    { key: 'disclosures.funding', answer: '', why: 'Who pays for the trial?' },
    { key: 'disclosures.interests', answer: '', why: 'Who gains by its result? Write none where nobody does.' },
    {
      key: 'dryBelow',
      answer: '',
      why: 'At or below which value does a wall count as dry? Only where the plan says so.',
    },
    {
      key: 'unaffectedAbove_mm',
      answer: '',
      why: 'Above which height can the treatment not act? An effect there is a false one.',
    },
    {
      key: 'adjustments.1',
      answer: '',
      words: adjustmentNames,
      why: 'Is the difference to be adjusted for something? Only what was chosen before the readings counts.',
    },
  ];
}

function armQuestions(): readonly PlanQuestion[] {
  const arms = ['treated', 'control', ''];
  const roles = ['treated', 'control', ''];
  const why = ['What are the treated walls called?', 'And the untreated ones?', 'A third arm, where there is one.'];
  return [
    ...arms.map((answer, index) => ({ key: `arms.${index + 1}.arm`, answer, why: why[index] ?? '' })),
    ...roles.map((answer, index) => ({
      key: `arms.${index + 1}.role`,
      answer,
      words: armRoles,
      why: 'What is its role? sham: looks and sounds like the treatment and does nothing.',
    })),
  ];
}

function outcomeOf({ cores, meter }: FormChoices): { readonly outcome: readonly PlanQuestion[] } {
  const instrument = cores || meter === undefined ? 'core' : meter;
  const quantity = cores ? 'moisture content' : 'meter reading';
  const unit = cores ? '% by mass' : 'digits of the meter';
  return {
    outcome: [
      { key: 'outcome.instrument', answer: instrument, why: 'Which instrument decides? One alone, chosen beforehand.' },
      { key: 'outcome.quantity', answer: quantity, why: 'What does it measure?' },
      { key: 'outcome.unit', answer: unit, why: 'In which unit?', ...(cores ? { words: dryBasisUnits } : {}) },
      { key: 'outcome.better', answer: 'lower', words: betterDirections, why: 'Is a lower value the better one?' },
    ],
  };
}

function instrumentQuestions({ cores, meter }: FormChoices): readonly PlanQuestion[] {
  const used = [
    ...(cores ? [{ instrument: 'core', kind: 'gravimetric' }] : []),
    ...(meter === undefined ? [] : [{ instrument: meter, kind: meter }]),
  ];
  const rows = Array.from({ length: planInstruments }, (_, index) => used[index]);
  return [
    ...rows.map((row, index) => ({
      key: `instruments.${index + 1}.instrument`,
      answer: row?.instrument ?? '',
      why: index === 0 ? 'What is the instrument called?' : 'A further instrument, where there is one.',
    })),
    ...rows.map((row, index) => ({
      key: `instruments.${index + 1}.kind`,
      answer: row?.kind ?? '',
      words: instrumentKinds,
      why: 'What kind is it? gravimetric: cores dried and weighed. A meter shows an index until it is calibrated against cores.',
    })),
    ...(cores
      ? [
          {
            key: 'instruments.1.resolution_g',
            answer: '',
            why: 'Which is the smallest step of the balance, in grams? It gives each core its uncertainty.',
          },
        ]
      : []),
  ];
}

function windowQuestions(): readonly PlanQuestion[] {
  const why = {
    'windows.before.from': 'First day of the readings before the treatment.',
    'windows.before.to': 'Last day of them; the treatment comes later.',
    'windows.after.from': 'First day of the readings that decide. Best in the same months: walls dry by season.',
    'windows.after.to': 'Last day of them.',
  };
  return Object.entries(why).map(([key, text]) => ({ key, answer: '', why: text, look: 'day' as const }));
}
