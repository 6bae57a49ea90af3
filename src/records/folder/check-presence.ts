import type { Problem } from '../../trial/index.js';
import { hasSensorLog } from '../sensor-log/log-of-trial.js';
import type { FolderContents } from './list-folder.js';
import { misnamedFiles } from './misnamed-files.js';
import type { FolderTables } from './read-tables.js';
import type { Table } from './table.js';
import { fileOfSheet, planLayout, protocolFile, sheetNames, type TableName, tableLayouts } from './table-layouts.js';

/** What must be there: the protocol, the walls, and readings, cores, trays or a sensor log; and no file under a name that is nearly right. */
export function checkPresence(
  contents: FolderContents,
  folderTables: FolderTables,
  { hasPlanTable, needsReadings }: { readonly hasPlanTable: boolean; readonly needsReadings: boolean },
  problems: Problem[],
): void {
  const { tables, present, workbookIsSealed } = folderTables;
  const hasProtocol = contents.names.includes(protocolFile) || hasPlanTable;
  const absent = sheetNames.filter((name) => !present.has(name) && name !== 'plan').map(fileOfSheet);
  const misnamed = misnamedFiles(contents.names, hasProtocol ? absent : [...absent, planLayout.file, protocolFile]);
  problems.push(...misnamed);
  const isExplained = (file: string) => misnamed.some(({ suggestion }) => suggestion === file);

  // A workbook that does not open may hold the plan as well.
  const mayHoldPlan = workbookIsSealed && contents.workbook !== undefined;
  if (!hasProtocol && !mayHoldPlan && !isExplained(protocolFile) && !isExplained(planLayout.file)) {
    const expected =
      'the plan of the trial: protocol.json, or a sheet plan (or plan.csv) with the columns key and answer';
    problems.push({ file: protocolFile, found: 'no such file', expected });
  }
  if (workbookIsSealed) return;
  if (!present.has('walls') && !isExplained('walls.csv')) {
    problems.push({ file: 'walls.csv', found: 'no such file or sheet', expected: 'a table with one row a wall' });
  }
  if (!needsReadings) return;
  const observed: readonly TableName[] = ['readings', 'cores', 'trays'];
  if (observed.some((name) => isExplained(tableLayouts[name].file))) return;
  if (hasSensorLog(contents.names) || present.has('grids')) return;
  if (observed.every((name) => !present.has(name))) {
    const expected = 'a table with one row a reading, or one row a core';
    problems.push({ file: 'readings.csv', found: 'neither readings.csv nor cores.csv', expected });
    return;
  }
  // A table that could not be read at all has been named already.
  const read = observed.filter((name) => present.has(name));
  if (read.every((name) => isEmpty(tables.get(name)))) {
    const file = read.map((name) => tables.get(name)?.place)[0] ?? '';
    problems.push({ file, found: 'a header and no rows', expected: 'at least one reading or core' });
  }
}

function isEmpty(table: Table | undefined): boolean {
  return table?.rows.length === 0 && table.refusedRows === 0;
}
