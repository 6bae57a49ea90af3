import { type ElectricalRecord, secondsOf } from '../../trial/index.js';

/**
 * The rows of each circuit of a wall whose current counts, in the order of time. The same current flows through the anode and the
 * cathode of a circuit: cathodes count only where no anode was read.
 */
export function circuitsOfWall(rows: readonly ElectricalRecord[]): readonly (readonly ElectricalRecord[])[] {
  const isRole = (role: string) => (row: ElectricalRecord) =>
    (row.electrode ?? '').trim().toLowerCase().startsWith(role);
  const hasAnodes = rows.some(isRole('anode'));
  const counted = hasAnodes ? rows.filter((row) => !isRole('cathode')(row)) : rows;
  const names = [...new Set(counted.map(({ electrode }) => electrode))];
  return names.map((name) =>
    counted
      .filter(({ electrode }) => electrode === name)
      .toSorted((one, other) => secondsOf(one.time) - secondsOf(other.time)),
  );
}
