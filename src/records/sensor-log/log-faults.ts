import type { Problem } from '../../trial/index.js';
import { knownNames } from '../cells/known-names.js';
import { numberAdvice } from '../cells/number-cell.js';
import type { DecimalMark } from '../folder/decimal-mark.js';
import { quoted } from '../quoted.js';
import { faultCountQuery, faultsQuery } from './log-query.js';
import type { LogFile, LogSource } from './log-source.js';
import { type Engine, SensorLogEngineError } from './open-engine.js';

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
      problems.push({ ...at, column: 'value', ...valueFault(value as string, source.decimal) });
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

function valueFault(value: string, decimal: DecimalMark | undefined): Pick<Problem, 'found' | 'expected'> {
  const advice = numberAdvice(value.trim().replace(/^<\s*/, ''), decimal);
  const plain = 'a number, a detection limit such as <0.5, NA or nothing';
  return { found: quoted(value), expected: advice === '' ? plain : `a number${advice}` };
}

/** Words by which the engine says that it is the machine, not the file, that lacks something. */
const machineFaults = /^(?:out of memory|io) error:.*(?:memory|no space left|could not (?:write|create)|quota)/is;

/**
 * What keeps the engine from reading a file, as a problem of that file.
 *
 * @throws SensorLogEngineError where it is the machine that lacks memory or room on its disk.
 */
export function unreadableLog(error: unknown, { name: file, enginePath }: LogFile): Problem {
  const said = error instanceof Error ? error.message : String(error);
  const message = said.replaceAll(enginePath, file);
  if (machineFaults.test(message)) throw new SensorLogEngineError(`the sensor log cannot be read here: ${message}`);
  const kind = file.endsWith('.parquet') ? 'a Parquet file' : 'a log with the columns time, sensor, value';
  if (/No magic bytes|too small to be a Parquet/i.test(message)) {
    return { file, found: 'a file of another kind', expected: kind };
  }
  const line = /CSV Error on Line: (\d+)/.exec(message)?.[1];
  if (line === undefined) {
    const [first = ''] = message.trim().split('\n');
    return {
      file,
      found: `that it cannot be read: ${JSON.stringify(first.slice(0, 200))}`,
      expected: `${kind} that is whole`,
    };
  }
  const cells = /Expected Number of Columns: (\d+) Found: (\d+)/.exec(message);
  const [found, expected] =
    cells !== null
      ? [`${cells[2]} cells`, `${cells[1]} cells as in the header`]
      : /unicode/i.test(message)
        ? ['letters that are not UTF-8', 'a file saved as UTF-8']
        : ['a row that cannot be split into cells', 'quotes in pairs around a whole cell'];
  return { file, row: Number(line), found, expected };
}
