import type { Problem } from '../../trial/index.js';
import { knownNames } from '../cells/known-names.js';
import { quoted } from '../quoted.js';
import { faultCountQuery, faultsQuery } from './log-query.js';
import type { LogSource } from './log-source.js';
import type { Engine } from './open-engine.js';

/** Rows that are named one by one; a wrong log is often wrong throughout. */
const mostNamed = 100;

/** The rows of a log that cannot be read, each with its row, column and what was expected. */
export async function logFaults(
  engine: Engine,
  source: LogSource,
  file: string,
  sensors: readonly string[],
): Promise<Problem[]> {
  const known = knownNames('a sensor that stations.csv gives a place', sensors);
  const found = await engine.rows(faultsQuery(source, mostNamed));
  const named = found.flatMap((fault): Problem[] => {
    const [time, sensor, value] = [fault.time, fault.sensor, fault.value].map((text) => String(text ?? ''));
    const at = { file, row: Number(fault.nth) + 1 };
    const problems: Problem[] = [];
    if (fault.wrongTime === true) problems.push({ ...at, column: 'time', ...timeFault(time as string, source) });
    if (Number(fault.place) < 0) {
      const suggestion = known.nearest((sensor as string).trim());
      const also = suggestion === undefined ? {} : { suggestion };
      problems.push({ ...at, column: 'sensor', found: quoted(sensor as string), expected: known.expected, ...also });
    }
    if (fault.wrongValue === true) {
      const expected = 'a number, a detection limit such as <0.5, NA or nothing';
      problems.push({ ...at, column: 'value', found: quoted(value as string), expected });
    }
    return problems;
  });
  if (found.length < mostNamed) return named;
  const [count] = await engine.rows(faultCountQuery(source));
  const more = Number(Object.values(count ?? {})[0]) - found.length;
  return more <= 0 ? named : [...named, { file, found: `${more} more rows that cannot be read`, expected: 'none' }];
}

function timeFault(time: string, { clock }: LogSource): Pick<Problem, 'found' | 'expected'> {
  const hasZone = /:\d{2}.*(?:Z|[+-]\d{2}:?\d{2})$/.test(time);
  const found = quoted(time);
  if (clock === 'without-zone' && hasZone) {
    return { found, expected: 'a time without a zone, as elsewhere in this log: the two cannot be set in one order' };
  }
  if (clock === 'with-zone' && !hasZone) {
    return { found, expected: 'a time with a zone such as Z or +01:00, as elsewhere in this log' };
  }
  return { found, expected: 'a date and time as YYYY-MM-DDThh:mm, such as 2024-03-01T08:30, from 1900 to 2199' };
}

/** What the engine says of a row that it cannot split into cells; nothing for an error of another kind. */
export function unreadableRow(error: unknown, file: string): Problem | undefined {
  const message = error instanceof Error ? error.message : '';
  if (/No magic bytes/i.test(message)) return { file, found: 'a file of another kind', expected: 'a Parquet file' };
  const line = /CSV Error on Line: (\d+)/.exec(message)?.[1];
  if (line === undefined) return undefined;
  const cells = /Expected Number of Columns: (\d+) Found: (\d+)/.exec(message);
  const [found, expected] =
    cells !== null
      ? [`${cells[2]} cells`, `${cells[1]} cells as in the header`]
      : /unicode/i.test(message)
        ? ['letters that are not UTF-8', 'a file saved as UTF-8']
        : ['a row that cannot be split into cells', 'quotes in pairs around a whole cell'];
  return { file, row: Number(line), found, expected };
}
