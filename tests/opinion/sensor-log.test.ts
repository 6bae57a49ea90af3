import { describe, expect, it } from 'vitest';
import { formOpinion } from '../../src/opinion/index.js';
import type { Figure } from '../../src/opinion/report/document.js';
import { limitsSection } from '../../src/opinion/report/limits-section.js';
import { sensorLogSection } from '../../src/opinion/report/sensor-log-section.js';
import { sensorPlaces } from '../../src/opinion/sensor-log/sensor-places.js';
import type { Facts } from '../../src/opinion/weaknesses/facts.js';
import { sensorDaysMissing, sensorsDrift } from '../../src/opinion/weaknesses/sensor-log.js';
import type { SensorRecord, Station, Trial } from '../../src/trial/index.js';
import { madeTrial, soundProtocol } from '../helpers/made-trial.js';

const origin = { file: 'stations.csv', row: 2 };
const sensors = ['T1', 'T2', 'U1', 'U2'];
const all = 40;

function recordOf(sensor: string, isLost: (day: number) => boolean, perDay?: number): SensorRecord {
  const nothing = { count: 0, readings: 0, longest_s: 0, missing: 0 };
  return {
    sensor,
    readings: 24 * all,
    interval_s: 3600,
    days: Array.from({ length: all }, (_, day) => ({
      day: new Date(Date.UTC(2024, 2, 1 + day)).toISOString().slice(0, 10),
      mean: 20 + day / 10,
      readings: 24,
      coverage: isLost(day) ? 0.5 : 1,
      row: 2 + day,
    })),
    gaps: nothing,
    stuck: nothing,
    spikes: { count: 0 },
    steps: { count: 0 },
    ...(perDay === undefined ? {} : { drift: { perDay, standardError: 0.001, drifts: perDay !== 0 } }),
    clockChanges: [],
  };
}

/** Forty days of four sensors, two on a treated wall; all inside the before window of `soundProtocol`. */
function logged(records: readonly SensorRecord[], changes: Partial<Trial> = {}): Trial {
  const protocol = {
    ...soundProtocol,
    outcome: { instrument: 'plug', quantity: 'moisture', unit: '% by volume', better: 'lower' as const },
    instruments: [{ instrument: 'plug', kind: 'embedded-sensor' as const }],
  };
  const stations = sensors.map(
    (sensor, k): Station => ({
      station: `at ${sensor}`,
      wall: sensor[0]!,
      height_mm: 300 * (1 + (k % 2)),
      sensor,
      origin,
    }),
  );
  const sensorLog = {
    file: 'sensors.csv',
    rows: 24 * all * records.length,
    leftOut: { missing: 0, belowDetection: 0, repeated: 0, contradicting: 0 },
    clock: 'with-zone',
    order: 'in-order',
    sensors: records,
  } as const;
  const walls = [
    { wall: 'T', arm: 'treated' },
    { wall: 'U', arm: 'sham' },
  ];
  return madeTrial(walls, { protocol, stations, sensorLog, ...changes });
}

function factsOf(trial: Trial): Facts {
  const sides = new Map([
    ['T', 'treated'],
    ['U', 'untreated'],
  ]);
  return { trial, sides } as unknown as Facts;
}

const whole = (sensor: string) => recordOf(sensor, () => false);
const holed = (sensor: string, lost: number) => recordOf(sensor, (day) => day >= 10 && day < 10 + lost);

describe('weaknesses of a sensor log', () => {
  it.each([
    ['none where a tenth of the days is lost alike', [4, 4, 4, 4], undefined],
    ['a minor one beyond a tenth', [5, 5, 5, 5], 'minor'],
    ['a serious one beyond a quarter', [11, 11, 11, 11], 'serious'],
    ['a serious one where one arm loses far more', [5, 5, 0, 0], 'serious'],
  ] as const)('%s', (_, lost, seriousness) => {
    const trial = logged(sensors.map((sensor, k) => holed(sensor, lost[k]!)));
    expect(sensorDaysMissing(factsOf(trial))?.seriousness).toBe(seriousness);
  });

  it('says how many days of which arm, counts days without any reading, and only those inside the windows', () => {
    const [one, ...others] = sensors.map(whole);
    const silent = { ...one!, days: [] };
    expect(sensorDaysMissing(factsOf(logged([silent, ...others])))?.text).toMatch(
      /the 4 sensors should have read, 25 % gave no mean that counts \(treated walls 50 %, untreated 0 %\)/,
    );
    const windows = {
      before: { from: '2024-03-01', to: '2024-03-10' },
      after: { from: '2025-03-01', to: '2025-03-10' },
    };
    const trial = logged(sensors.map((sensor) => holed(sensor, 30)));
    expect(sensorDaysMissing(factsOf(trial))?.seriousness).toBe('serious');
    expect(sensorDaysMissing(factsOf({ ...trial, protocol: { ...trial.protocol, windows } }))).toBeUndefined();
  });

  it('are none of an outcome that is read otherwise', () => {
    const trial = logged(sensors.map((sensor) => recordOf(sensor, (day) => day < 30, 0.2)));
    const outcome = { ...trial.protocol.outcome, instrument: 'core' };
    const facts = factsOf({ ...trial, protocol: { ...trial.protocol, outcome } });
    expect([sensorDaysMissing(facts), sensorsDrift(facts)]).toEqual([undefined, undefined]);
  });

  it('name sensors that creep away, serious where they are more than a fifth', () => {
    const many = [recordOf('T1', () => false, -0.2), ...sensors.slice(1).map(whole)];
    expect(sensorsDrift(factsOf(logged(many)))).toMatchObject({
      seriousness: 'serious',
      text: expect.stringMatching(/^1 sensor of 4 creeps away from the others \(T1\), by −0\.20* % by volume a day/),
    });
    const few = [...many, recordOf('T3', () => false, 0), recordOf('T4', () => false, 0)];
    expect(sensorsDrift(factsOf(logged(few)))?.seriousness).toBe('minor');
    expect(sensorsDrift(factsOf(logged(sensors.map(whole))))).toBeUndefined();
  });
});

describe('the log in the report', () => {
  const trial = logged([...sensors.slice(0, 3).map(whole), holed('U2', 3)]);

  it('is drawn with the days left out, by wall and from the top down', () => {
    expect(sensorPlaces(trial).map(({ sensor }) => sensor)).toEqual(['T2', 'T1', 'U2', 'U1']);
    const section = sensorLogSection(formOpinion(trial));
    const figure = section?.blocks.find((block): block is Figure => block.kind === 'figure');
    const description = figure?.charts[0]?.description ?? '';
    expect(description).toContain('moisture in % by volume, 4 sensors');
    expect(description).toMatch(/T T2 600 mm: .*T T1 300 mm: .*U U2 600 mm: [^:]*, 3 days left out\. U U1 300 mm/);
  });

  it('draws no more sensors than a page holds, those with faults first, and says how many are not drawn', () => {
    const names = Array.from({ length: 33 }, (_, k) => `S${k + 10}`);
    const stations = names.map((sensor): Station => ({ station: sensor, wall: 'T', height_mm: 300, origin }));
    const records = names.map((sensor, k) => ({ ...whole(sensor), spikes: { count: k } }));
    const section = sensorLogSection(formOpinion(logged(records, { stations })));
    const figure = section?.blocks.find((block): block is Figure => block.kind === 'figure');
    expect(figure?.caption).toContain('3 sensors with fewer faults are not drawn');
    expect(figure?.charts[0]?.description).not.toMatch(/S10|S11|S12/);
  });

  it('says in the limits that no wall could be compared, and no average, where there is none', () => {
    const text = JSON.stringify(limitsSection(formOpinion(trial)));
    expect(text).toContain('No wall could be compared.');
    expect(text).not.toMatch(/The difference is an average|No heights were recorded/);
  });
});
