import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import type { Belief, Problem, Role } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { neededChoiceCell } from '../cells/choice-cell.js';
import { dayOrTimeCell, optionalDayCell } from '../cells/date-cell.js';
import { knownNames } from '../cells/known-names.js';
import { nameCell } from '../cells/name-cell.js';
import type { Table } from '../folder/table.js';
import type { NamedArm } from '../protocol/findings.js';
import { quoted } from '../quoted.js';
import type { Known } from './known.js';

export const believerRoles: readonly [Role, ...Role[]] = ['reader', 'occupant', 'analyst'];

/** The blinding notes, in the order of the file; the same note twice would count a person twice. */
export function readBeliefs(
  table: Table,
  arms: readonly NamedArm[] | undefined,
  names: Pick<Known, 'walls'>,
  plan: string,
  problems: Problem[],
): readonly Belief[] {
  const cells = cellReader(table, problems);
  const beliefs = arms && knownNames(`an arm of ${plan}, or unknown`, [...arms.map(({ arm }) => arm), 'unknown']);
  const rowsByNote = new Map<string, number>();
  const roleOf = new Map<string, { readonly role: Role; readonly row: number }>();
  return table.rows.map((row) => {
    const date = dayOrTimeCell(cells, row, 'date');
    const person = cells.needed(row, 'person', 'who believed it');
    const role = neededChoiceCell(cells, row, 'role', believerRoles);
    const wall = nameCell(cells, row, 'wall', names.walls);
    const believedArm = nameCell(cells, row, 'believed_arm', beliefs);
    const why = cells.text(row, 'why');
    const readingDate = optionalDayCell(cells, row, 'reading_date');
    if (readingDate !== undefined && isoDay(date) > readingDate) {
      const found = `a note of ${isoDay(date)} on readings of ${readingDate}`;
      cells.refuseAs(row, 'date', found, 'a note made no later than the readings that it explains');
    }
    const known = roleOf.get(person);
    if (known === undefined) roleOf.set(person, { role, row: row.row });
    else if (known.role !== role && person !== '') {
      const found = `${quoted(person)} as ${role}, and as ${known.role} in row ${known.row}`;
      cells.refuseAs(row, 'role', found, 'each person under one role');
    }
    const key = JSON.stringify(row.cells);
    const earlier = rowsByNote.get(key);
    if (earlier === undefined) rowsByNote.set(key, row.row);
    else cells.refuseAs(row, 'person', `the same note as in row ${earlier}`, 'each note once');
    return {
      date,
      person,
      role,
      wall,
      believedArm,
      ...present({ why, readingDate }),
      origin: cells.origin(row),
    };
  });
}
