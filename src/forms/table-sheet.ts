import { isIsoDay } from '../plain/days.js';
import { present } from '../plain/present.js';
import { type TableName, tableLayouts } from '../records/folder/table-layouts.js';
import { type ColumnNote, notesOf } from './column-notes.js';
import { type CellRule, type Choices, type FormCell, type FormSheet, readyRows } from './form-sheet.js';
import { type PlanQuestion, planArms, planInstruments } from './plan-questions.js';

/** Where the names stand that other sheets refer to. */
export type NameCells = Readonly<Record<NonNullable<ColumnNote['names']>, string>>;

/** A sheet for a table of the trial folder. */
export function tableSheet(table: TableName, names: NameCells, rows: readonly (readonly FormCell[])[] = []): FormSheet {
  const notes = [...notesOf(table)];
  const needed: readonly string[] = tableLayouts[table].needed;
  const columns = notes.map(([heading, { look }]) => {
    const width = look === 'prose' ? 32 : Math.max(12, heading.length + 3);
    return { heading, width, needed: needed.includes(heading), ...present({ look }) };
  });
  const lastRow = Math.max(readyRows, rows.length) + 1;
  const rules = notes.flatMap(([title, note], column): readonly CellRule[] => {
    const choices = choicesOf(note, names);
    return [
      { column, firstRow: 1, lastRow: 1, title, note: note.note },
      { column, firstRow: 2, lastRow, title, note: withExample(note), ...present({ choices }) },
    ];
  });
  return { name: table, columns, rows, rules };
}

function withExample({ note, example }: ColumnNote): string {
  return example === '' ? note : `${note} Example: ${example}`;
}

function choicesOf({ words, names }: ColumnNote, cells: NameCells): Choices | undefined {
  if (words !== undefined) return { kind: 'words', words };
  return names === undefined ? undefined : { kind: 'names', cells: cells[names] };
}

const planSheetName = 'plan';

/** The plan as questions: the reader takes `key` and `answer`. */
export function planSheet(questions: readonly PlanQuestion[]): FormSheet {
  return {
    name: planSheetName,
    columns: [
      { heading: 'key', width: 26, needed: true },
      { heading: 'answer', width: 38, needed: true },
      { heading: 'why', width: 96, needed: false, look: 'prose' },
    ],
    rows: questions.map(({ key, answer, why, look }) => [
      { value: key, look: 'key' },
      look === 'day' ? { value: answer === '' ? '' : dayOrText(answer), look } : answer,
      why,
    ]),
    rules: questions.map(({ key, why, words }, index) => ({
      ...{ column: 1, firstRow: index + 2, lastRow: index + 2, title: key, note: why },
      ...(words === undefined ? {} : { choices: { kind: 'words' as const, words } }),
    })),
  };
}

/** A day as a spreadsheet holds it; with a time of day it stays a text. */
export function dayOrText(text: string | number): string | number | Date {
  return typeof text === 'string' && isIsoDay(text) ? new Date(`${text}T00:00:00Z`) : text;
}

/** The cells that name arms, instruments, walls, places and batches. */
export function nameCellsOf(questions: readonly PlanQuestion[]): NameCells {
  const inPlan = (first: string, count: number) => {
    const row = questions.findIndex(({ key }) => key === first) + 2;
    return `${planSheetName}!$B$${row}:$B$${row + count - 1}`;
  };
  const inTable = (table: 'walls' | 'stations' | 'batches') => `${table}!$A$2:$A$${readyRows + 1}`;
  return {
    arms: inPlan('arms.1.arm', planArms),
    instruments: inPlan('instruments.1.instrument', planInstruments),
    walls: inTable('walls'),
    stations: inTable('stations'),
    batches: inTable('batches'),
  };
}
