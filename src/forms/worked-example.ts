import { readFile } from 'node:fs/promises';
import Papa from 'papaparse';
import { protocolFile, type TableName, tableLayouts, tableNames } from '../records/folder/table-layouts.js';
import { bundledTrial } from './bundled-trial.js';
import { defaultChoices } from './form-choices.js';
import type { FormCell, FormSheet } from './form-sheet.js';
import { guideSheet } from './guide-sheet.js';
import { planLeaves } from './plan-leaves.js';
import { type PlanQuestion, planQuestions } from './plan-questions.js';
import { dayOrText, nameCellsOf, planSheet, tableSheet } from './table-sheet.js';

/** The bundled trial that the example shows: invented walls, cores and a meter, everything that a firm opinion asks for. */
const bundled = bundledTrial('paired-garden-walls');

/** A filled workbook that can be judged as it is: a bundled trial, laid out as the workbook to fill in. */
export async function workedExample(): Promise<readonly FormSheet[]> {
  const questions = answered(JSON.parse(await readFile(new URL(protocolFile, bundled), 'utf8')));
  const names = nameCellsOf(planQuestions(defaultChoices));
  const tables: TableName[] = [];
  const sheets: FormSheet[] = [];
  for (const table of tableNames) {
    const text = await textOf(tableLayouts[table].file);
    if (text === undefined) continue;
    const sheet = tableSheet(table, names);
    tables.push(table);
    sheets.push({ ...sheet, rows: rowsOf(text, sheet, tableLayouts[table].numeric) });
  }
  return [planSheet(questions), ...sheets, guideSheet(tables)];
}

async function textOf(file: string): Promise<string | undefined> {
  try {
    return await readFile(new URL(file, bundled), 'utf8');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined;
    throw error;
  }
}

/** The rows of a bundled table under the headings of the sheet: numbers as numbers, days as days. */
function rowsOf(text: string, { columns }: FormSheet, numeric: readonly string[]): readonly (readonly FormCell[])[] {
  const { data } = Papa.parse<Record<string, string>>(text.trim(), { header: true });
  return data.map((row) =>
    columns.map(({ heading, look }) => {
      const cell = row[heading] ?? '';
      if (look === 'day') return dayOrText(cell);
      return numeric.includes(heading) && cell !== '' && Number.isFinite(Number(cell)) ? Number(cell) : cell;
    }),
  );
}

/** The questions of the blank plan, in their order, with the answers of a plan that is written as JSON. */
function answered(plan: unknown): readonly PlanQuestion[] {
  const answers = new Map(planLeaves(plan));
  return planQuestions(defaultChoices).map((question) => ({ ...question, answer: answers.get(question.key) ?? '' }));
}
