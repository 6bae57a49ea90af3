import type { TableName } from '../records/folder/table-layouts.js';
import { type FormChoices, namesOf, placesOf } from './form-choices.js';
import type { FormSheet } from './form-sheet.js';
import { guideSheet } from './guide-sheet.js';
import { type PlanQuestion, planQuestions } from './plan-questions.js';
import { nameCellsOf, planSheet, tableSheet } from './table-sheet.js';

/**
 * The sheets of a workbook to fill in: the plan as questions, then a sheet a table, then what every column means. Walls and places are
 * named already, so that the printed recording sheets and the workbook agree; arms are nobody's to guess, and stay blank.
 *
 * @param answers of a plan that is made already, by key; what the questions do not ask for follows below them
 * @param places the block and the site of each wall, where they are known
 */
export function trialSheets(
  choices: FormChoices,
  answers: PlanAnswers = new Map(),
  places: ReadonlyMap<string, WallPlace> = new Map(),
): readonly FormSheet[] {
  const questions = answered(planQuestions(choices), answers);
  const names = nameCellsOf(questions);
  const tables = tablesOf(choices);
  return [
    planSheet(questions),
    ...tables.map((table) => {
      if (table === 'walls')
        return tableSheet(
          table,
          names,
          namesOf(choices).map((wall) => {
            const { block = '', site = '' } = places.get(wall) ?? {};
            return block === '' && site === '' ? [wall] : [wall, '', block, site];
          }),
        );
      if (table !== 'stations') return tableSheet(table, names);
      const rows = placesOf(choices).map(({ station, wall, height_mm }) => [station, wall, height_mm]);
      return tableSheet(table, names, rows);
    }),
    guideSheet(tables),
  ];
}

/** Where a wall stands: its pair or block, and its house. */
export interface WallPlace {
  readonly block?: string;
  readonly site?: string;
}

/** In the order of working: what stands there, what is read, and what lies around it. */
function tablesOf({ cores, meter }: FormChoices): readonly TableName[] {
  return [
    'walls',
    'stations',
    ...(cores ? (['cores', 'batches'] as const) : []),
    ...(meter === undefined ? [] : (['readings', 'checks'] as const)),
    'climate',
    'blinding',
    'diary',
  ];
}

/** Answers of a plan by their dotted keys. */
export type PlanAnswers = ReadonlyMap<string, string | number>;

/** Whoever brings a plan has answered every question: what it does not state stays blank. */
function answered(questions: readonly PlanQuestion[], answers: PlanAnswers): readonly PlanQuestion[] {
  if (answers.size === 0) return questions;
  const asked = new Set(questions.map(({ key }) => key));
  const further = [...answers].filter(([key]) => !asked.has(key));
  return [
    ...questions.map((question) => ({
      ...question,
      answer: answers.get(question.key) ?? (question.key === 'format' ? question.answer : ''),
    })),
    ...further.map(([key, answer]) => ({ key, answer, why: '' })),
  ];
}
