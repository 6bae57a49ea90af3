import type { TableName } from '../records/folder/table-layouts.js';
import { type FormChoices, placesOf, wallNames } from './form-choices.js';
import type { FormSheet } from './form-sheet.js';
import { guideSheet } from './guide-sheet.js';
import { planQuestions } from './plan-questions.js';
import { nameCellsOf, planSheet, tableSheet } from './table-sheet.js';

/**
 * The sheets of a workbook to fill in: the plan as questions, then a sheet a table, then what every column means. Walls and places are
 * named already, so that the printed recording sheets and the workbook agree; arms are nobody's to guess, and stay blank.
 */
export function trialSheets(choices: FormChoices): readonly FormSheet[] {
  const questions = planQuestions(choices);
  const names = nameCellsOf(questions);
  const tables = tablesOf(choices);
  return [
    planSheet(questions),
    ...tables.map((table) => {
      if (table === 'walls')
        return tableSheet(
          table,
          names,
          wallNames(choices.walls).map((wall) => [wall]),
        );
      if (table !== 'stations') return tableSheet(table, names);
      const rows = placesOf(choices).map(({ station, wall, height_mm }) => [station, wall, height_mm]);
      return tableSheet(table, names, rows);
    }),
    guideSheet(tables),
  ];
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
