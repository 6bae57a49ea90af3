import { isoDay } from '../../plain/days.js';
import { groupBy } from '../../plain/group-by.js';
import type { Core, Problem } from '../../trial/index.js';
import type { ReadingNotes } from '../folder/reading-notes.js';
import type { Table } from '../folder/table.js';

/** What is known of the places of cores: whether the plan says that nobody knows, and where that is taken down. */
export interface PlacesOfCores {
  readonly placesUnknown: boolean;
  readonly notes: ReadingNotes;
}

/**
 * Cores of several places on a wall must say which is which: averaged as if they came from one place, one lost core moves its wall by
 * the height that it stood at. Where nobody wrote it down, the plan must say so.
 */
export function checkPlacesOfCores(
  table: Table,
  cores: readonly Core[],
  { placesUnknown, notes }: PlacesOfCores,
  problems: Problem[],
): void {
  const visits = groupBy(cores, ({ wall, date, station }) =>
    station === '' ? JSON.stringify([wall, isoDay(date)]) : undefined,
  );
  const several = [...visits.values()].filter(({ length }) => length > 1);
  const first = several[0]?.[0];
  if (first === undefined) return;
  const cells = several.reduce((sum, { length }) => sum + length, 0);
  if (placesUnknown) {
    notes.notUsed.push({ kind: 'places', file: table.place, cores: cells });
    return;
  }
  problems.push({
    file: table.place,
    row: first.origin.row,
    column: 'station',
    found: `${cells} cores without a station, several on one wall and day`,
    expected:
      'a station or height_mm for each, as a wall’s change is taken place by place; or the key placesOfCores: unknown in the plan, where nobody knows',
  });
}
