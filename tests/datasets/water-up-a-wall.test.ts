import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { frontSpeed, renderOpinion, sensorArrivals, type Trial } from '../../src/index.js';
import type { SensorLog } from '../../src/trial/index.js';
import { bundledOpinion, bundledTrial } from '../helpers/bundled-opinions.js';

interface Reduced {
  readonly sensor: string;
  readonly readings: number;
  readonly gaps: number;
  readonly missing: number;
  readonly stuck: number;
  readonly spikes: number;
  readonly steps: number;
  readonly perDay: number;
  readonly standardError: number;
  readonly days: readonly { readonly day: string; readonly mean: number; readonly coverage: number }[];
}

const root = join(import.meta.dirname, '..', '..');
const reference: { readonly tool: string; readonly cases: readonly Reduced[] } = JSON.parse(
  readFileSync(join(root, 'tests', 'reference', 'sensor-log', 'water-up-a-wall.json'), 'utf8'),
);

let trial: Trial;
let log: SensorLog;

beforeAll(async () => {
  trial = await bundledTrial('water-up-a-wall');
  if (trial.sensorLog === undefined) throw new Error('no log was read');
  log = trial.sensorLog;
});

describe(`the log of water-up-a-wall against ${reference.tool}, reduced with whole vectors`, () => {
  it.each(reference.cases)('$sensor: faults counted, means to the last digits', (expected) => {
    const ours = log.sensors.find(({ sensor }) => sensor === expected.sensor);
    expect(ours).toMatchObject({
      readings: expected.readings,
      gaps: { count: expected.gaps, missing: expected.missing },
      stuck: { readings: expected.stuck },
      spikes: { count: expected.spikes },
      steps: { count: expected.steps },
    });
    // Fifteen digits are what R's JSON carries.
    expect(ours?.drift?.perDay).toBeCloseTo(expected.perDay, 12);
    expect(ours?.drift?.standardError).toBeCloseTo(expected.standardError, 12);
    expect(ours?.days.map(({ day }) => day)).toEqual(expected.days.map(({ day }) => day));
    for (const [at, { mean, coverage }] of expected.days.entries()) {
      expect(ours?.days[at]?.mean).toBeCloseTo(mean, 11);
      expect(ours?.days[at]?.coverage).toBeCloseTo(coverage, 12);
    }
  });
});

it('finds every blemish that its README names', () => {
  const found = (which: (sensor: SensorLog['sensors'][number]) => boolean) =>
    log.sensors.filter(which).map(({ sensor }) => sensor);
  expect(found(({ stuck }) => stuck.count > 0)).toEqual(['P07']);
  expect(found(({ spikes }) => spikes.count > 0)).toEqual(['P12']);
  expect(found(({ drift }) => drift?.drifts === true)).toEqual(['P20']);
  expect(found(({ clockChanges }) => clockChanges.join() === '2024-10-27')).toHaveLength(20);
  expect(log.sensors[18]?.steps).toMatchObject({ count: 1, largestOn: '2024-10-15' });
  expect(log.leftOut).toEqual({ missing: 1, belowDetection: 0, repeated: 1, contradicting: 0 });
});

it('shows the water’s way up: arrivals from daily means, and the front’s speed of 4.5 mm/min^0.5', () => {
  const day = (iso: string) => (Date.parse(iso) - Date.parse('2024-10-03')) / 86_400_000;
  const heights = new Map(trial.stations.map(({ sensor, height_mm }) => [sensor, height_mm ?? 0]));
  const arrivals = sensorArrivals(
    log.sensors.map(({ sensor, days }) => ({
      sensor,
      height_mm: heights.get(sensor) ?? 0,
      // A mean of a day stands for its noon.
      times: days.map((each) => day(each.day) + 0.5),
      values: days.map(({ mean }) => mean),
    })),
  ).flatMap((arrival) => (arrival.kind === 'arrived' ? [arrival] : []));
  const truth = (height_mm: number) => (height_mm / 4.5) ** 2 / 1440;
  // A mean of a day places the step to half a day, and the front takes six hours to pass a plug.
  const reached = arrivals.filter(({ sensor }) => sensor <= 'P18');
  expect(reached).toHaveLength(18);
  for (const { height_mm, step } of reached) {
    expect(Math.abs(step.time - (truth(height_mm) + 3 / 24))).toBeLessThan(0.5 + 3 / 24);
  }
  // Two dry plugs seem to be reached: one has a step, one drifts, and the log says so of both.
  expect(arrivals.filter(({ sensor }) => sensor > 'P18').map(({ sensor }) => sensor)).toEqual(['P19', 'P20']);
  const later = reached.filter(({ step }) => step.time > 1);
  const { interval } = frontSpeed(
    later.map(({ height_mm, step }) => ({ height_mm, time_min: step.time * 1440 })),
    { line: 'with-intercept' },
  );
  expect(interval.lower).toBeLessThan(4.5);
  expect(interval.upper).toBeGreaterThan(4.5);
});

it('tells the log’s story in the report and in opinion.json, with the file among those to check', async () => {
  const { markdown, json } = await renderOpinion(await bundledOpinion('water-up-a-wall'));
  expect(markdown).toMatch(
    /## The sensors’ log\n\n`sensors\.csv` holds 15.801 rows of 20 sensors, from 30.September.2024/,
  );
  expect(markdown).toMatch(
    /\| P20 \| 790 \| 1.h \| 33 of 34 \| 1 \(26 missing\) \| 0 \| 0 \| 0 \| drifts by \+0\.22 a day \|/,
  );
  expect(markdown).toMatch(/sha256sum .*sensors\.csv/);
  const { sensorLog } = JSON.parse(json);
  expect(sensorLog).toMatchObject({ file: 'sensors.csv', rows: 15_801, clock: 'without-zone' });
  expect(sensorLog.sensors[6]).toMatchObject({ sensor: 'P07', stuck: { count: 1, readings: 60 }, daysUsed: 30 });
});
