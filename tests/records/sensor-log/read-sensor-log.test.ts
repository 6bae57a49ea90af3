import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkTrial, readTrial } from '../../../src/records/index.js';
import { openEngine } from '../../../src/records/sensor-log/open-engine.js';
import { checkSensorLog, readSensorLog } from '../../../src/records/sensor-log/read-sensor-log.js';
import { normalDraws, randomStream } from '../../../src/statistics/index.js';
import { describeProblem, type SensorLog } from '../../../src/trial/index.js';
import { inFolder, validFolder } from '../../helpers/valid-folder.js';

const header = 'time,sensor,value';

function inLog<Result>(lines: readonly string[], use: (path: string) => Promise<Result>): Promise<Result> {
  return inFolder({ 'sensors.csv': lines.map((line) => `${line}\n`).join('') }, (folder) =>
    use(join(folder, 'sensors.csv')),
  );
}

/** Rows of a sensor read every hour from the first of a month on. */
function hourly(sensor: string, values: readonly (number | string)[], start = '2024-01-01T00:00Z'): string[] {
  return values.map((value, hour) => `${stamp(Date.parse(start) + hour * 3_600_000)},${sensor},${value}`);
}

function stamp(ms: number): string {
  return new Date(ms).toISOString().slice(0, 16);
}

/** Small steps up and down, no two neighbours equal. */
const restless = (count: number) => Array.from({ length: count }, (_, k) => 8 + ((k * 7) % 5) / 10);

const read = (lines: readonly string[], sensors: readonly string[] = ['a']): Promise<SensorLog> =>
  inLog([header, ...lines], (path) => readSensorLog(path, sensors));

const problemsOf = (lines: readonly string[], sensors: readonly string[] = ['a', 'b']): Promise<string[]> =>
  inLog(lines, async (path) => {
    const check = await checkSensorLog(path, sensors);
    return check.kind === 'log' ? [] : check.problems.map(describeProblem);
  });

describe('readSensorLog(path, sensors), worked by hand', () => {
  it('gives means and coverage by day, with the row where a day begins', async () => {
    const { rows, order, clock, sensors } = await read(hourly('a', restless(36)));
    expect({ rows, order, clock }).toEqual({ rows: 36, order: 'in-order', clock: 'without-zone' });
    expect(sensors[0]?.interval_s).toBe(3600);
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const [first, second] = sensors[0]?.days ?? [];
    expect(first).toMatchObject({ day: '2024-01-01', readings: 24, coverage: 1, row: 2 });
    expect(first?.mean).toBeCloseTo(mean(restless(24)), 13);
    expect(second).toMatchObject({ day: '2024-01-02', readings: 12, coverage: 0.5, row: 26 });
    expect(second?.mean).toBeCloseTo(mean(restless(36).slice(24)), 13);
  });

  it('finds a gap, and how many readings are missing in it', async () => {
    const lines = hourly('a', restless(72)).filter((_, hour) => hour < 30 || hour > 36);
    const { gaps, days } = (await read(lines)).sensors[0] as SensorLog['sensors'][number];
    expect(gaps).toEqual({ count: 1, missing: 7, longest_s: 8 * 3600, longestFrom: '2024-01-02' });
    expect(days.map(({ coverage }) => coverage)).toEqual([1, 17 / 24, 1]);
  });

  it('takes a spike out of its day, and leaves a step in', async () => {
    const values = restless(72).map((value, hour) => (hour === 10 ? 99 : hour >= 48 ? value + 20 : value));
    const { spikes, steps, days } = (await read(hourly('a', values))).sensors[0] as SensorLog['sensors'][number];
    expect(spikes).toMatchObject({ count: 1, largestOn: '2024-01-01' });
    expect(steps).toMatchObject({ count: 1, largestOn: '2024-01-03' });
    expect(days[0]).toMatchObject({ readings: 23 });
    const rest = restless(24).filter((_, hour) => hour !== 10);
    expect(days[0]?.mean).toBeCloseTo(rest.reduce((sum, value) => sum + value, 0) / 23, 13);
    expect(days[2]?.readings).toBe(24);
  });

  it('takes a stuck value out of every day that it reaches, and leaves a slow sensor in peace', async () => {
    const values = restless(96).map((value, hour) => (hour >= 12 && hour < 60 ? 7.7 : value));
    const { stuck, days } = (await read(hourly('a', values))).sensors[0] as SensorLog['sensors'][number];
    expect(stuck).toEqual({ count: 1, readings: 48, longest_s: 47 * 3600, longestFrom: '2024-01-01' });
    expect(days.map(({ day, readings }) => [day.slice(-2), readings])).toEqual([
      ['01', 12],
      ['03', 12],
      ['04', 24],
    ]);
    const slow = Array.from({ length: 240 }, (_, hour) => 5 + Math.floor(hour / 30) / 10);
    expect((await read(hourly('a', slow))).sensors[0]?.stuck.count).toBe(0);
  });

  it('finds the one sensor that moves away from the others', async () => {
    const days = Array.from({ length: 30 * 4 }, (_, at) => at);
    const noise = normalDraws(randomStream(20240401), 480);
    const lines = ['a', 'b', 'c', 'd'].flatMap((sensor, which) =>
      days.map((at) => {
        const season = Math.sin(at / 40) + (noise[which * 120 + at] as number) / 50;
        return `${stamp(Date.parse('2024-01-01') + at * 6 * 3_600_000)},${sensor},${season + (which === 2 ? at / 60 : 0)}`;
      }),
    );
    const { sensors } = await read(lines, ['a', 'b', 'c', 'd']);
    expect(sensors.map(({ drift }) => drift?.drifts)).toEqual([false, false, true, false]);
    expect(sensors[2]?.drift?.perDay).toBeCloseTo(4 / 60, 1);
  });

  it('counts what enters no mean: missing, below detection, repeated and contradicting', async () => {
    const lines = hourly('a', [1, 'NA', '', '<0.5', 2]);
    const { rows, leftOut, sensors } = await read([...lines, lines[4] as string, '2024-01-01T04:00,a,3']);
    expect(leftOut).toEqual({ missing: 2, belowDetection: 1, repeated: 1, contradicting: 1 });
    expect(rows).toBe(7);
    expect(sensors[0]?.readings).toBe(2);
    expect(sensors[0]?.days[0]?.mean).toBe(1.5);
  });

  it('reads semicolons, decimal commas, quotes, a byte-order mark and further columns', async () => {
    const lines = ['\uFEFFid;time;"value";sensor', '1;2024-01-01 00:00;"1,5";a', '2;2024-01-01 01:00;2,5;"a"'];
    const log = await inLog(lines, (path) => readSensorLog(path, ['a']));
    expect(log.sensors[0]?.days[0]).toMatchObject({ mean: 2, readings: 2 });
  });
});

describe('time in readSensorLog(path, sensors)', () => {
  it('sorts what is out of order: any order of the rows gives the same means', async () => {
    const lines = hourly('a', restless(50)).flatMap((line, at) => [line, hourly('b', restless(50))[at] as string]);
    const expected = await read(lines, ['a', 'b']);
    await fc.assert(
      fc.asyncProperty(fc.shuffledSubarray(lines, { minLength: lines.length }), async (shuffled) => {
        const log = await read(shuffled, ['a', 'b']);
        const means = ({ sensors }: SensorLog) => sensors.map(({ days }) => days.map(({ day, mean }) => [day, mean]));
        expect(means(log)).toEqual(means(expected));
      }),
      { numRuns: 5 },
    );
  });

  it('keeps the hour that a wall clock without a zone repeats in autumn, and sees no gap where it skips one in spring', async () => {
    const clock = (hours: readonly string[], day: string) => hours.map((hour) => `${day}T${hour}`);
    const autumn = clock(['01:00', '01:30', '02:00', '02:30', '02:00', '02:30', '03:00'], '2024-10-27');
    const log = await read(autumn.map((time, at) => `${time},a,${at}`));
    expect(log.order).toBe('in-order');
    expect(log.leftOut.contradicting).toBe(0);
    expect(log.sensors[0]).toMatchObject({ readings: 7, clockChanges: ['2024-10-27'], gaps: { count: 0 } });
    const spring = clock(['01:00', '01:30', '03:00', '03:30', '04:00'], '2024-03-31');
    const second = await read(spring.map((time, at) => `${time},a,${at}`));
    expect(second.sensors[0]).toMatchObject({ readings: 5, clockChanges: ['2024-03-31'], gaps: { count: 0 } });
  });

  it('orders stamps with zones by the instant, and names the day as the stamp writes it', async () => {
    const lines = ['2024-10-27T02:30+02:00,a,1', '2024-10-27T02:30+01:00,a,2', '2024-10-28T00:30+0100,a,6'];
    const log = await read(lines);
    expect(log).toMatchObject({ clock: 'with-zone', order: 'in-order' });
    expect(log.sensors[0]?.days.map(({ day, mean }) => [day, mean])).toEqual([
      ['2024-10-27', 1.5],
      ['2024-10-28', 6],
    ]);
    const west = await read(['2024-01-01T23:00-05:00,a,1', '2024-01-02T05:00Z,a,2']);
    expect(west.sensors[0]?.interval_s).toBe(3600);
    expect(west.sensors[0]?.days.map(({ day }) => day)).toEqual(['2024-01-01', '2024-01-02']);
  });
});

describe('what readSensorLog refuses, by row and column', () => {
  it.each([
    ['an empty file', [], /^sensors\.csv: found an empty file, expected/],
    ['a header alone', [header], /found a header and no rows/],
    ['a missing column', ['time,sensor', '2024-01-01,a'], /row 1, column value: found no such column/],
    ['tabs', ['time\tsensor\tvalue', '2024-01-01\ta\t1'], /found tabs between the cells/],
    [
      'a word for a number',
      [header, '2024-01-01T00:00,a,1', '2024-01-01T01:00,a,wet'],
      /row 3, column value: found "wet"/,
    ],
    ['infinity', [header, '2024-01-01T00:00,a,inf'], /row 2, column value: found "inf"/],
    ['a day that does not exist', [header, '2024-02-30T00:00,a,1'], /row 2, column time: found "2024-02-30T00:00"/],
    ['another style of day', [header, '01.02.2024 00:00,a,1'], /row 2, column time/],
    ['a day of the year zero', [header, '0024-02-03,a,1'], /from 1900 to 2199/],
    [
      'a sensor without a place',
      [header, '2024-01-01,ab,1'],
      /row 2, column sensor: found "ab", expected a sensor that stations/,
    ],
    [
      'a zone among stamps without',
      [header, '2024-01-01T00:00,a,1', ...hourly('b', Array(3000).fill(1)), '2024-01-01T01:00:00+01:00,a,1'],
      /row 3003, column time: .*without a zone/,
    ],
    [
      'no zone among stamps with',
      [header, '2024-01-01T00:00Z,a,1', '2024-01-01T01:00Z,a,1', '2024-01-01T02:00,a,1'],
      /row 4, column time: .*with a zone/,
    ],
    ['a row cut off', [header, '2024-01-01T00:00,a,1', '2024-01-01T01:00,a'], /row 3: found 2 cells, expected 3 cells/],
  ])('%s', async (_, lines, message) => {
    const problems = await problemsOf(lines);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(message);
  });

  it('a row cut off behind many others, where the engine ends its stream in silence', async () => {
    const lines = [
      header,
      ...hourly(
        'a',
        Array(100_000)
          .fill(0)
          .map((_, k) => 8 + (k % 7) / 10),
      ),
      '2035-01-01T00:00,a',
    ];
    expect(await problemsOf(lines)).toEqual([expect.stringMatching(/row 100002: found 2 cells, expected 3 cells/)]);
  });

  it('a sensor with the name that marks the end of a log', async () => {
    const lines = [header, '2024-01-01T00:00,a,1', '2024-01-01T01:00,\u0004,1', '2024-01-01T02:00,a,1'];
    expect(await problemsOf(lines)).toEqual([
      expect.stringMatching(/column sensor: found the control character U\+0004/),
    ]);
  });

  it('a wrong column throughout: a hundred rows, and how many more', async () => {
    const problems = await problemsOf([header, ...hourly('a', Array(250).fill('x'))]);
    expect(problems).toHaveLength(101);
    expect(problems[100]).toMatch(/found 150 more rows/);
  });
});

describe('the same digits every time', () => {
  /** Values of very different size, whose sum in doubles depends on the order. */
  const lines = Array.from({ length: 30_000 }, (_, at) => {
    const value = ((at * 7919) % 10_007) * 10 ** ((at % 9) - 4);
    return `${stamp(Date.parse('2024-01-01') + Math.floor(at / 3) * 60_000)},${'abc'[at % 3]},${value}`;
  });

  it('whatever the threads, and from Parquet as from CSV', async () => {
    await inLog([header, ...lines], async (path) => {
      const one = await readSensorLog(path, ['a', 'b', 'c'], { threads: 1 });
      for (const threads of [2, 4, 2]) expect(await readSensorLog(path, ['a', 'b', 'c'], { threads })).toEqual(one);
      const parquet = path.replace('.csv', '.parquet');
      const engine = await openEngine(1);
      await engine.run(
        `COPY (SELECT time::TIMESTAMP AS time, sensor, value::DOUBLE AS value FROM read_csv('${path}')) TO '${parquet}' (FORMAT parquet)`,
      );
      await engine.close();
      const other = await readSensorLog(parquet, ['a', 'b', 'c']);
      expect(other.sensors).toEqual(one.sensors);
    });
  });

  it('nothing lost between large and small: 100000000000 + 0.1 − 100000000000 + 0.2 over 4', async () => {
    const { sensors } = await read(hourly('a', [1e11, 0.1, -1e11, 0.2]));
    expect(sensors[0]?.days[0]?.mean).toBe((0.1 + 0.2) / 4);
  });

  it('the correctly rounded mean, against sums of whole numbers', async () => {
    const { sensors } = await read(lines, ['a', 'b', 'c']);
    const tenThousandths = lines.filter((line) => line.startsWith('2024-01-03') && line.includes(',b,'));
    const sum = tenThousandths.reduce(
      (total, line) => total + BigInt(Math.round(Number(line.split(',')[2]) * 1e4)),
      0n,
    );
    const day = sensors[1]?.days.find((each) => each.day === '2024-01-03');
    expect(day?.readings).toBe(tenThousandths.length);
    const exact = Number(sum) / 1e4 / tenThousandths.length;
    expect(Math.abs((day?.mean ?? 0) / exact - 1)).toBeLessThan(1e-15);
  });
});

describe('readTrial(folder) with a sensor log', () => {
  function withLog(): Record<string, string> {
    const folder = validFolder();
    const protocol = JSON.parse(folder['protocol.json'] as string);
    protocol.instruments.push({ instrument: 'plug', kind: 'embedded-sensor' });
    const stations = (folder['stations.csv'] as string).trimEnd().split('\n');
    const named = stations.map((line, at) => `${line},${at === 0 ? 'sensor' : at === 1 ? 'T1' : ''}`);
    return {
      ...folder,
      'protocol.json': JSON.stringify(protocol),
      'stations.csv': `${named.join('\n')}\n`,
      'sensors.csv': `${[header, ...hourly('T1', restless(60))].join('\n')}\n`,
    };
  }

  it('makes a reading of each day that has three quarters of its readings, and keeps the file in the fingerprint', async () => {
    await inFolder(withLog(), async (folder) => {
      const trial = await readTrial(folder);
      const means = trial.readings.filter(({ instrument }) => instrument === 'plug');
      expect(means.map(({ date, wall, station, origin }) => [date, wall, station, origin.row])).toEqual([
        ['2024-01-01', 'w1', 'low', 2],
        ['2024-01-02', 'w1', 'low', 26],
      ]);
      expect(trial.sensorLog?.sensors[0]?.days).toHaveLength(3);
      expect(trial.source.files.at(-1)).toEqual({
        file: 'sensors.csv',
        rows: 60,
        separator: 'comma',
        decimal: 'point',
      });
      await writeFile(join(folder, 'sensors.csv'), `${[header, ...hourly('T1', restless(59))].join('\n')}\n`);
      expect((await readTrial(folder)).source.fingerprint).not.toBe(trial.source.fingerprint);
    });
  });

  it.each([
    [
      'no instrument for it',
      { 'protocol.json': validFolder()['protocol.json'] },
      /protocol\.json.*instruments.*embedded-sensor/,
    ],
    ['no stations', { 'stations.csv': undefined }, /^stations\.csv: found no such file/],
    ['two logs', { 'sensors.parquet': 'x' }, /a second log beside sensors\.csv/],
    [
      'the names of stations that two walls have',
      { 'stations.csv': validFolder()['stations.csv'] },
      /column station: found "low" again/,
    ],
  ])('refuses a folder with %s', async (_, change, message) => {
    const files = Object.entries({ ...withLog(), ...change }).filter(
      (entry): entry is [string, string] => entry[1] !== undefined,
    );
    await inFolder(Object.fromEntries(files), async (folder) => {
      const check = await checkTrial(folder);
      const problems = check.kind === 'trial' ? [] : check.problems.map(describeProblem);
      expect(
        problems.some((problem) => message.test(problem)),
        problems.join('\n'),
      ).toBe(true);
    });
  });
});
