import { present } from '../../plain/present.js';
import {
  fileOfSheet,
  sheetNames,
  type TableLayout,
  type TableName,
  tableLayouts,
  tableNames,
} from '../folder/table-layouts.js';
import { plainName, type TableNaming } from '../folder/table-naming.js';
import { alternatives } from '../quoted.js';
import { choiceOf, fieldsOf, type JsonFields, listOf, namedEntriesOf, refuseWord, textOf } from './json-fields.js';

const dateOrders = ['day-first', 'month-first'] as const;

/** The names that the plan gives to headings and sheets, and what it sets aside. */
export function readNaming(root: JsonFields): TableNaming {
  const tables = root.get('columns');
  const fields = tables && fieldsOf(tables, tableNames);
  const columns = new Map(tableNames.map((table) => [table, columnsOf(fields, table)] as const));
  const sheetsExpected = `an object from names of sheets to ${alternatives(sheetNames.map(String))}`;
  const sheets = namedEntriesOf(root.get('sheets'), sheetsExpected).flatMap(([sheet, place]) => {
    const table = choiceOf(place, sheetNames);
    return table === undefined ? [] : [[plainName(sheet.replace(/\.csv$/i, '')), table] as const];
  });
  const expected = 'a heading or the name of a sheet that is not to be read';
  const ignored = listOf(root.get('ignore'), `a list, each ${expected}`) ?? [];
  const dateOrder = choiceOf(root.get('dateOrder'), dateOrders);
  return {
    columns,
    sheets: new Map(sheets),
    ignore: new Set(ignored.map((entry) => plainName(textOf(entry, expected) ?? '')).filter((name) => name !== '')),
    ...present({ dateOrder }),
  };
}

function columnsOf(fields: JsonFields | undefined, table: TableName): ReadonlyMap<string, string> {
  const layout: TableLayout = tableLayouts[table];
  const known = [...layout.needed, ...layout.optional];
  const expected = `an object from headings to columns of ${fileOfSheet(table)}`;
  const entries = namedEntriesOf(fields?.get(table), expected).flatMap(([heading, place]) => {
    const column = textOf(place, `a column of ${layout.file}: ${alternatives(known)}`);
    if (column === undefined) return [];
    if (known.includes(column)) return [[plainName(heading), column] as const];
    refuseWord(place, `a column of ${layout.file}: ${alternatives(known)}`, known);
    return [];
  });
  return new Map(entries);
}
