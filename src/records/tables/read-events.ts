import { present } from '../../plain/present.js';
import type { DiaryEvent, EventKind, Problem } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { neededChoiceCell } from '../cells/choice-cell.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { optionalNameCell } from '../cells/name-cell.js';
import type { Table } from '../folder/table.js';
import type { Known } from './known.js';

export const eventKinds: readonly [EventKind, ...EventKind[]] = [
  'installed',
  'heating',
  'ventilation',
  'plaster-stripped',
  'replastered',
  'leak',
  'flood',
  'sensor-moved',
  'instrument-changed',
  'unblinded',
  'other',
];

/** The diary, in the order of the file; an event without a wall struck them all. */
export function readEvents(table: Table, known: Pick<Known, 'walls'>, problems: Problem[]): readonly DiaryEvent[] {
  const cells = cellReader(table, problems);
  return table.rows.map((row) => {
    const date = dayOrTimeCell(cells, row, 'date');
    const wall = optionalNameCell(cells, row, 'wall', known.walls);
    const kind = neededChoiceCell(cells, row, 'kind', eventKinds);
    const note = cells.text(row, 'note') ?? '';
    return { date, ...present({ wall }), kind, note, origin: cells.origin(row) };
  });
}
