import { execFileSync } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { rowsOfLog } from '../../../src/command/rows-of-log.js';
import { SensorLogEngineError } from '../../../src/records/index.js';
import { literal } from '../../../src/records/sensor-log/log-source.js';
import { openEngine } from '../../../src/records/sensor-log/open-engine.js';
import { checkSensorLog, readSensorLog } from '../../../src/records/sensor-log/read-sensor-log.js';
import { randomStream } from '../../../src/statistics/index.js';
import { describeProblem } from '../../../src/trial/index.js';
import { ofSweep } from '../../helpers/sweep.js';

let scratch = '';
beforeAll(async () => {
  scratch = await mkdtemp(join(tmpdir(), 'unlucky-logs-'));
});
afterAll(() => rm(scratch, { recursive: true, force: true }));
afterEach(() => vi.unstubAllEnvs());

/** Half an hour of a sensor. */
const rowsOf = (value: string) => `2024-03-01T08:00,a,${value}\n2024-03-01T08:30,a,${value}\n`;
const header = 'time,sensor,value\n';

async function logAt(path: string, content: string | Uint8Array): Promise<string> {
  const file = join(scratch, path);
  await mkdir(dirname(file), { recursive: true });
  await writeFile(file, content);
  return file;
}

/** Writes the answer to a query as a Parquet file. */
async function parquetAt(path: string, query: string): Promise<string> {
  const file = await logAt(path, '');
  const engine = await openEngine(1);
  try {
    await engine.run(`COPY (${query}) TO ${literal(file)} (FORMAT parquet)`);
  } finally {
    await engine.close();
  }
  return file;
}

const half = "SELECT '2024-03-01T08:00' AS time, 'a' AS sensor, 12.5 AS value";

async function firstMean(path: string): Promise<number | undefined> {
  return (await readSensorLog(path, ['a'])).sensors[0]?.days[0]?.mean;
}

async function problemsOf(path: string, sensors: readonly string[] = ['a']): Promise<readonly string[]> {
  const check = await checkSensorLog(path, sensors);
  return check.kind === 'log' ? [] : check.problems.map(describeProblem);
}

describe('the log of the folder that was named, and of no other', () => {
  it.each([
    ['Trial [1]', 'Trial 1'],
    ['q?', 'qz'],
    ['a*10', 'axx10'],
    ['[ab]{c}', 'a{c}'],
  ])('in %s beside %s', async (named, beside) => {
    const rowsAndMean = async (path: string) => {
      const { rows, sensors } = await readSensorLog(path, ['a']);
      return [rows, sensors[0]?.days[0]?.mean];
    };
    await logAt(`${beside}/sensors.csv`, header + rowsOf('99'));
    expect(await rowsAndMean(await logAt(`${named}/sensors.csv`, header + rowsOf('12.5')))).toEqual([2, 12.5]);
    await parquetAt(`${beside}/sensors.parquet`, half.replace('12.5', '99.0'));
    const parquet = await parquetAt('plain.parquet', half);
    expect(await rowsAndMean(await logAt(`${named}/sensors.parquet`, await readFile(parquet)))).toEqual([1, 12.5]);
  });

  it('where the temporary folder itself bears such signs', async () => {
    await mkdir(join(scratch, 'tmp [1]'));
    vi.stubEnv('TMPDIR', join(scratch, 'tmp [1]'));
    expect(await firstMean(await logAt('in-tmp/sensors.csv', header + rowsOf('12.5')))).toBe(12.5);
  });

  it.each(['value=3', 'sensor=b', 'time=2020-01-01'])('a folder %s above it is no column', async (above) => {
    expect(await firstMean(await parquetAt(`${above}/sensors.parquet`, half))).toBe(12.5);
    expect(await firstMean(await logAt(`${above}/sensors.csv`, header + rowsOf('12.5')))).toBe(12.5);
  });
});

describe('numbers of a log are those of every table', () => {
  const commas = 'time;sensor;value\n2024-03-01T08:00;a;12,5\n2024-03-01T08:30;a;13,5\n2024-03-01T09:00;a;';
  it.each([
    ['1.234', /column value: found "1\.234", expected a number without thousands separators$/],
    ['12.75', /column value: found "12\.75", expected a number with a decimal comma, as elsewhere in this table$/],
    ['1_000', /column value: found "1_000"/],
    ['<1_0', /column value: found "<1_0"/],
    ['<inf', /column value: found "<inf"/],
    ['<nan', /column value: found "<nan"/],
    ['<0', /column value: found "<0"/],
  ])('%s among decimal commas is refused', async (value, message) => {
    const problems = await problemsOf(await logAt('commas/sensors.csv', `${commas}${value}\n`));
    expect(problems).toEqual([expect.stringMatching(message)]);
  });

  it.each(['1_000', '12.5_5', 'inf', '5,5', '0x1F'])('%s among decimal points is refused', async (value) => {
    const path = await logAt('points/sensors.csv', `${header}${rowsOf('12.5')}2024-03-01T09:00,a,"${value}"\n`);
    expect(await problemsOf(path)).toHaveLength(1);
    const text = await parquetAt('points/sensors.parquet', half.replace('12.5', literal(value)));
    expect(await problemsOf(text)).toHaveLength(1);
  });

  it.each(['', 'NA', 'n/a', 'N/A', '-', '–', '—'])('“%s” is a missing value', async (value) => {
    const log = await readSensorLog(
      await logAt('missing/sensors.csv', `${header}${rowsOf('12.5')}2024-03-01T09:00,a,${value}\n`),
      ['a'],
    );
    expect([log.leftOut.missing, log.order]).toEqual([1, 'in-order']);
  });

  it('a minus sign, a plus sign and powers of ten are read', async () => {
    for (const [value, mean] of [
      ['−2.5', -2.5],
      ['+2.5', 2.5],
      ['25e-1', 2.5],
      ['.5', 0.5],
      ['5.', 5],
    ] as const)
      expect(await firstMean(await logAt('signs/sensors.csv', header + rowsOf(value)))).toBe(mean);
  });

  it.each([
    ['+14:59', true],
    ['+15:00', false],
    ['+99:99', false],
    ['-14:60', false],
    ['+ 1:00', false],
    ['+0530', true],
  ])('the offset %s: %s', async (offset, isRead) => {
    const lines = `${header}2024-03-01T08:00+01:00,a,1\n2024-03-01T09:00+01:00,a,1\n2024-03-03T09:00${offset},a,1\n`;
    expect(await problemsOf(await logAt('offsets/sensors.csv', lines))).toHaveLength(isRead ? 0 : 1);
  });
});

describe('a log that a spreadsheet, an editor or another machine has had', () => {
  const [first, second] = rowsOf('12.5').trim().split('\n') as [string, string];
  const head = header.trim();
  it.each([
    ['carriage return and line feed, then line feed', `${head}\r\n${first}\n${second}\n`],
    ['line feed, then both', `${head}\n${first}\r\n${second}\r\n`],
    ['both, and a blank line of line feed', `${head}\r\n${first}\r\n${second}\r\n\n`],
    ['one carriage return too many', `${head}\r\r\n${first}\r\r\n${second}\r\r\n`],
    ['carriage returns alone', `${head}\r${first}\r${second}\r`],
    ['a blank line above the header', `\n${head}\n${first}\n${second}\n`],
    ['a byte-order mark and a blank line', `\uFEFF\n${head}\n${first}\n${second}\n`],
    ['a separator in the name of a column', `time,sensor,value,"note, long"\n${first},x\n${second},y\n`],
    ['decimal commas in quotes', `${head}\n${first.replace('12.5', '"12,5"')}\n${second.replace('12.5', '"12,5"')}\n`],
  ])('%s', async (_, content) => {
    const log = await readSensorLog(await logAt('ends/sensors.csv', content), ['a']);
    expect([log.rows, log.sensors[0]?.days[0]?.mean]).toEqual([2, 12.5]);
  });

  it('line ends that change behind a hundred thousand rows, in the middle of what is read at once', async () => {
    const rows = Array.from({ length: 100_000 }, (_, at) => {
      const time = new Date(Date.parse('2024-01-01') + at * 60_000).toISOString().slice(0, 16);
      return `${time},a,${(at % 7) / 2}${at < 60_000 ? '\n' : '\r\n'}`;
    });
    const log = await readSensorLog(await logAt('late/sensors.csv', header + rows.join('')), ['a']);
    expect([log.rows, log.order, log.sensors[0]?.days.length]).toEqual([100_000, 'in-order', 70]);
  });

  it('accents in two signs or in one are the same name', async () => {
    const path = await logAt('accents/sensors.csv', header + rowsOf('12.5').replaceAll(',a,', ',e\u0301,'));
    expect((await readSensorLog(path, ['\u00e9'])).sensors[0]?.days[0]?.mean).toBe(12.5);
  });

  it('stamps of Parquet that are texts with a zone in every row', async () => {
    const log = await readSensorLog(await parquetAt('zones/sensors.parquet', half.replace('08:00', '08:00+01:00')), [
      'a',
    ]);
    expect(log.clock).toBe('with-zone');
  });
});

describe('a log that cannot be read is one problem, whatever the engine says', () => {
  it.each(['sensors.csv', 'sensors.parquet'])('a folder %s', async (name) => {
    await mkdir(join(scratch, 'folder', name), { recursive: true });
    expect(await problemsOf(join(scratch, 'folder', name))).toEqual([
      `${name}: found something that is not a file, expected a log with the columns time, sensor, value`,
    ]);
    expect(await rowsOfLog(join(scratch, 'folder'))).toBeUndefined();
  });

  it.skipIf(process.platform === 'win32')('a pipe that nobody fills', async () => {
    const pipe = join(scratch, 'pipe', 'sensors.csv');
    await mkdir(dirname(pipe));
    execFileSync('mkfifo', [pipe]);
    expect(await problemsOf(pipe)).toEqual([expect.stringContaining('something that is not a file')]);
    expect(await rowsOfLog(dirname(pipe))).toBeUndefined();
  });

  it.each(['PAR1', 'PAR1xxxxxxxxxxxxxxxxxxPAR1', 'time,sensor,value\n'])('%s as Parquet', async (content) => {
    const problems = await problemsOf(await logAt('damaged/sensors.parquet', content));
    expect(problems).toEqual([expect.stringMatching(/^sensors\.parquet: found .*, expected a Parquet file/)]);
  });

  it('Parquet cut off, or with up to three bits turned over: never an error of another kind', async () => {
    const query =
      "SELECT ('2024-03-01'::TIMESTAMP + to_minutes(10 * i)) AS time, 'a' AS sensor, (i % 7) / 2 AS value FROM range(500) r(i)";
    const whole = await readFile(await parquetAt('whole/sensors.parquet', query));
    const stream = randomStream(20240301);
    const random = () => (stream.next() >>> 0) / 2 ** 32;
    const rounds = ofSweep(40, 8);
    let refused = 0;
    for (let round = 0; round < rounds; round++) {
      const bytes = Uint8Array.from(round % 4 === 0 ? whole.subarray(0, Math.floor(random() * whole.length)) : whole);
      for (let bit = 0; bit < 1 + (round % 3) && round % 4 !== 0; bit++) {
        const at = Math.floor(random() * bytes.length);
        bytes[at] = (bytes[at] ?? 0) ^ (1 << Math.floor(random() * 8));
      }
      const problems = await problemsOf(await logAt('bits/sensors.parquet', bytes));
      for (const problem of problems) expect(problem).toMatch(/^sensors\.parquet/);
      for (const problem of problems) expect(problem).not.toContain(tmpdir());
      if (problems.length > 0) refused++;
    }
    expect(refused).toBeGreaterThan(rounds / 4);
  });

  it('sensors under names that the engine has for itself', async () => {
    const path = await logAt('names/sensors.csv', header + rowsOf('12.5'));
    expect((await readSensorLog(path, ['a', '\u0004'])).sensors.map(({ sensor }) => sensor)).toEqual(['a']);
    expect(await problemsOf(await logAt('names/sensors.csv', `${header}2024-03-01T08:00,\u0004,1\n`))).toHaveLength(1);
    const parquet = await parquetAt('names/sensors.parquet', half.replace("'a'", 'chr(4)'));
    expect(await problemsOf(parquet)).toHaveLength(1);
  });

  it('no temporary folder: said in plain words', async () => {
    vi.stubEnv('TMPDIR', join(scratch, 'nowhere'));
    const reading = problemsOf(await logAt('no-tmp/sensors.csv', header + rowsOf('12.5')));
    await expect(reading).rejects.toThrow(SensorLogEngineError);
    await expect(reading).rejects.toThrow(/temporary folder.*nowhere \(ENOENT\).*TMPDIR/);
  });
});
