import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  agreementOnWalls,
  betweenReaders,
  type CalibrationPair,
  calibrateByUncertainties,
  calibrateMeter,
  calibrationPairs,
  concordanceOnWalls,
  instrumentDrift,
  isMoistureError,
  type MoistureFault,
  type MoistureReading,
  moistureByMeter,
  moistureReadings,
  monotoneCalibration,
  trackedChange,
} from '../../../src/moisture/index.js';
import { addDays } from '../../../src/plain/days.js';
import { checkTrial } from '../../../src/records/read-trial.js';
import { deming, normalDraws, randomStream } from '../../../src/statistics/index.js';
import { coreTrial, protocol } from '../../helpers/core-trial.js';
import { inFolder, validFolder } from '../../helpers/valid-folder.js';

/** Eight walls, three stations, two visits: index = 10 + 5 × moisture, with errors in both. */
function madePairs(errors = { core: 0.3, meter: 1.5 }): CalibrationPair[] {
  const draws = [...normalDraws(randomStream(7), 96)];
  const draw = () => draws.pop() as number;
  return Array.from({ length: 48 }, (_, index) => {
    const [wall, visit] = [Math.floor(index / 6), index % 2];
    const truth = 3 + wall + (index % 3) * 1.5;
    return {
      wall: `W${wall}`,
      station: `s${index % 3}`,
      day: visit === 0 ? '2024-03-12' : '2024-04-12',
      material: 'brick',
      moisture: truth + errors.core * draw(),
      reading: 10 + 5 * truth + errors.meter * draw(),
      daysApart: 1,
    };
  });
}

function refuses(call: () => unknown, fault: MoistureFault): void {
  try {
    call();
  } catch (error) {
    if (!isMoistureError(error)) throw error;
    expect(error.fault).toBe(fault);
    return;
  }
  throw new Error(`was not refused as ${fault}`);
}

describe('calibrateMeter(pairs)', () => {
  it('finds the line that made the pairs, and its interval by walls holds it', () => {
    const found = calibrateMeter(madePairs());
    expect(found.line.slopeInterval.lower).toBeLessThan(5);
    expect(found.line.slopeInterval.upper).toBeGreaterThan(5);
    expect(found.ratio.from).toBe('repeats');
    expect(found.walls).toBe(8);
    // A single reading is worth about √(0.3² + 0.3²) of moisture against a core.
    expect(found.onUnseenWalls.rootMeanSquare).toBeGreaterThan(0.3);
    expect(found.onUnseenWalls.rootMeanSquare).toBeLessThan(0.6);
  });

  it('predicts each wall by the line of the others', () => {
    const pairs = madePairs();
    const found = calibrateMeter(pairs, { errorRatio: 25 });
    const others = pairs.filter(({ wall }) => wall !== 'W3');
    const line = deming(
      { x: others.map(({ moisture }) => moisture), y: others.map(({ reading }) => reading) },
      { errorRatio: 25 },
    );
    const index = pairs.findIndex(({ wall }) => wall === 'W3');
    const expected = ((pairs[index]?.reading ?? 0) - line.intercept) / line.slope;
    expect(found.onUnseenWalls.predicted[index]).toBeCloseTo(expected, 10);
  });

  it('reads the line backwards, and says where it leaves the cores', () => {
    const found = calibrateMeter(madePairs({ core: 1e-6, meter: 1e-6 }), { errorRatio: 25 });
    const inside = moistureByMeter(found, 10 + 5 * 7);
    expect(inside.value).toBeCloseTo(7, 5);
    expect(inside.kind).toBe('within-range');
    expect(moistureByMeter(found, 10 + 5 * 20).kind).toBe('extrapolated');
    const scattered = calibrateMeter(madePairs());
    const [one, nine] = [moistureByMeter(scattered, 45), moistureByMeter(scattered, 45, { readings: 9 })];
    expect(nine.upper - nine.lower).toBeLessThan(one.upper - one.lower);
  });

  it('refuses constant readings, too few pairs, a reversed relation, and cores of another material', () => {
    const pairs = madePairs();
    refuses(() => calibrateMeter(pairs.map((pair) => ({ ...pair, reading: 40 }))), 'no-variation');
    refuses(() => calibrateMeter(pairs.map((pair) => ({ ...pair, moisture: 4 }))), 'no-variation');
    refuses(() => calibrateMeter(pairs.slice(0, 2)), 'too-few');
    refuses(() => calibrateMeter(pairs.slice(0, 12)), 'too-few');
    const upside = pairs.map((pair) => ({ ...pair, reading: -pair.reading }));
    refuses(() => calibrateMeter(upside), 'reversed');
    expect(calibrateMeter(upside, { readingRises: 'against-moisture' }).line.slope).toBeLessThan(0);
    refuses(
      () => calibrateMeter(pairs.map((pair, i) => (i < 6 ? { ...pair, material: 'rubble' } : pair))),
      'materials-differ',
    );
  });

  it('monotoneCalibration follows a bent relation that no line does, and refuses a falling one', () => {
    const bent = madePairs({ core: 0.05, meter: 0.05 }).map((pair) => ({ ...pair, reading: pair.moisture ** 3 / 20 }));
    const [curve, line] = [monotoneCalibration(bent), calibrateMeter(bent, { errorRatio: 25 })];
    expect(curve.onUnseenWalls.rootMeanSquare).toBeLessThan(line.onUnseenWalls.rootMeanSquare / 2);
    expect(curve.range.to).toBe(Math.max(...bent.map(({ reading }) => reading)));
    refuses(() => monotoneCalibration(bent.map((pair) => ({ ...pair, reading: -pair.reading }))), 'reversed');
    const upside = bent.map((pair) => ({ ...pair, reading: -pair.reading }));
    const turned = monotoneCalibration(upside, { readingRises: 'against-moisture' });
    expect(turned.onUnseenWalls.rootMeanSquare).toBeCloseTo(curve.onUnseenWalls.rootMeanSquare, 12);
    refuses(() => monotoneCalibration(bent, { readingRises: 'against-moisture' }), 'reversed');
    refuses(() => monotoneCalibration(bent.slice(0, 2)), 'too-few');
  });

  it('agreementOnWalls holds nearly all single differences between its limits', () => {
    const found = calibrateMeter(madePairs());
    const { lower, upper, n } = agreementOnWalls(found);
    const differences = found.pairs.map(({ moisture }, i) => (found.onUnseenWalls.predicted[i] as number) - moisture);
    const inside = differences.filter((one) => one > lower.estimate && one < upper.estimate).length;
    expect(n).toBe(8);
    expect(inside).toBeGreaterThanOrEqual(43);
    expect(inside).toBeLessThanOrEqual(48);
  });
});

describe('concordanceOnWalls(calibration)', () => {
  it('is 1 where nothing errs, and Lin’s formula on the means of the walls', () => {
    const found = calibrateMeter(madePairs());
    const { estimate, n, interval } = concordanceOnWalls(found);
    expect(n).toBe(8);
    const means = (of: (index: number) => number) =>
      Array.from({ length: 8 }, (_, wall) => {
        const own = found.pairs.flatMap((pair, index) => (pair.wall === `W${wall}` ? [of(index)] : []));
        return own.reduce((sum, value) => sum + value, 0) / own.length;
      });
    const x = means((index) => found.onUnseenWalls.predicted[index] as number);
    const y = means((index) => found.pairs[index]?.moisture ?? Number.NaN);
    const centre = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const [mx, my] = [centre(x), centre(y)];
    const sum = (of: (i: number) => number) => x.reduce((total, _, i) => total + of(i), 0);
    const products = sum((i) => ((x[i] as number) - mx) * ((y[i] as number) - my));
    const squares = sum((i) => ((x[i] as number) - mx) ** 2) + sum((i) => ((y[i] as number) - my) ** 2);
    expect(estimate).toBeCloseTo((2 * products) / (squares + 8 * (mx - my) ** 2), 12);
    expect(interval.lower).toBeLessThan(estimate);
    expect(concordanceOnWalls(calibrateMeter(madePairs({ core: 1e-5, meter: 1e-5 }))).estimate).toBeCloseTo(1, 8);
  });
});

describe('calibrateByUncertainties(pairs)', () => {
  const withBoth = (pairs: readonly CalibrationPair[], core: number, meter: number) =>
    pairs.map((pair) => ({ ...pair, moistureUncertainty: core, readingUncertainty: meter }));

  it('is calibrateMeter with their ratio where all pairs have the same uncertainties', () => {
    const pairs = withBoth(madePairs(), 0.3, 1.5);
    const [york, deming] = [calibrateByUncertainties(pairs), calibrateMeter(pairs, { errorRatio: 25 })];
    expect(york.line.slope).toBeCloseTo(deming.line.slope, 9);
    expect(york.line.slopeInterval.lower).toBeCloseTo(deming.line.slopeInterval.lower, 7);
    expect(york.onUnseenWalls.rootMeanSquare).toBeCloseTo(deming.onUnseenWalls.rootMeanSquare, 9);
    expect(moistureByMeter(york, 45).upper).toBeCloseTo(moistureByMeter(deming, 45).upper, 7);
    // The errors that made the pairs are those stated; 48 pairs put their ratio to 1 within some 0.1.
    expect(york.beyondStated).toBeGreaterThan(0.75);
    expect(york.beyondStated).toBeLessThan(1.25);
  });

  it('shows when only the balance was counted: the pairs lie many times too far from the line', () => {
    const { beyondStated } = calibrateByUncertainties(withBoth(madePairs(), 0.01, 0.2));
    expect(beyondStated).toBeGreaterThan(5);
  });

  it('gives the published line of Pearson’s points with York’s weights, −0.4805 and 5.4799', () => {
    const url = new URL('../../reference/calibration-and-censoring/calibration-and-censoring.json', import.meta.url);
    const { yorks } = JSON.parse(readFileSync(url, 'utf8')) as {
      yorks: { x: number[]; y: number[]; uncertaintyX: number[]; uncertaintyY: number[] }[];
    };
    const [{ x, y, uncertaintyX, uncertaintyY } = { x: [], y: [], uncertaintyX: [], uncertaintyY: [] }] = yorks;
    const pairs = x.map(
      (moisture, i): CalibrationPair => ({
        ...{ wall: `W${i}`, station: '', day: '2024-03-12', material: 'brick', moisture, daysApart: 0 },
        moistureUncertainty: uncertaintyX[i] as number,
        reading: y[i] as number,
        readingUncertainty: uncertaintyY[i] as number,
      }),
    );
    const { line } = calibrateByUncertainties(pairs, { readingRises: 'against-moisture' });
    expect(line.slope).toBeCloseTo(-0.4805, 4);
    expect(line.intercept).toBeCloseTo(5.4799, 4);
    refuses(() => calibrateByUncertainties(pairs), 'reversed');
  });

  it('refuses pairs without both uncertainties, and names the pair', () => {
    const pairs = withBoth(madePairs(), 0.3, 1.5);
    const { readingUncertainty: _, ...without } = pairs[7] as (typeof pairs)[number];
    const short = pairs.map((pair, i) => (i === 7 ? without : pair));
    refuses(() => calibrateByUncertainties(short), 'unstated');
    expect(() => calibrateByUncertainties(short)).toThrow('every reading, got none at W1, s1, 2024-04-12');
    refuses(() => calibrateByUncertainties(withBoth(madePairs(), 0, 1)), 'out-of-range');
    refuses(() => calibrateByUncertainties(pairs.slice(0, 2)), 'too-few');
  });
});

describe('calibrationPairs(trial, readings)', () => {
  it('sets cores beside the readings of their place and day, counts those alone, and takes no value below detection', async () => {
    const check = await inFolder(validFolder(), checkTrial);
    if (check.kind !== 'trial') throw new Error('the folder was refused');
    const { trial } = check;
    const readings = moistureReadings(trial);
    const { pairs, coresAlone } = calibrationPairs(trial, readings, { instrument: 'mw' });
    // The thirty-third moisture is a reading of its own in readings.csv, two days after the meter's.
    expect(pairs.map(({ daysApart }) => daysApart)).toEqual([2, ...Array(32).fill(0)]);
    expect(coresAlone).toBe(0);
    expect(new Set(pairs.map(({ material }) => material))).toEqual(new Set(['brick', 'brick, lime mortar']));
    refuses(() => calibrateMeter(pairs), 'materials-differ');
    expect(pairs.some(({ readingUncertainty }) => readingUncertainty !== undefined)).toBe(false);
    // Every reading again on its day, 2 higher: repeats 2 apart have a variance of 2, the mean of two of them one of 1.
    const again = readings.flatMap((one) =>
      one.instrument === 'mw' && one.value.kind === 'measured'
        ? [one, { ...one, value: { ...one.value, value: one.value.value + 2 } }]
        : [one],
    );
    const repeated = calibrationPairs(trial, again, { instrument: 'mw' }).pairs;
    expect(repeated.map(({ readingUncertainty = 0 }) => readingUncertainty)).toEqual(
      repeated.map(() => expect.closeTo(1, 12)),
    );
    const moved = readings.map((one) => (one.instrument === 'mw' ? { ...one, day: '2026-01-01' } : one));
    expect(calibrationPairs(trial, moved, { instrument: 'mw' })).toEqual({ pairs: [], coresAlone: 33 });
  });
});

describe('calibrationPairs(trial, readings) by the nearest place', () => {
  const at = (wall: string, station: string, height_mm: number, position_mm?: number) => ({
    ...{ station, wall, height_mm, origin: { file: 'stations.csv', row: 2 } },
    ...(position_mm === undefined ? {} : { position_mm }),
  });
  const trial = coreTrial([{ station: 'core', wet_g: 52, dry_g: 46 }], {
    protocol: { ...protocol, instruments: [...protocol.instruments, { instrument: 'mw', kind: 'microwave' }] },
    stations: [
      at('t1', 'core', 300, 0),
      at('t1', 'far', 300, 500),
      at('t1', 'near', 420, 90),
      at('t1', 'unplaced', 300),
      at('c1', 'core', 300, 0),
    ],
  });
  const meter = (station: string, day: string, value: number, wall = 't1'): MoistureReading =>
    ({
      ...{
        wall,
        station,
        day,
        instrument: 'mw',
        origin: { file: 'readings.csv', row: 2 },
        value: { kind: 'measured', value },
      },
    }) as MoistureReading;
  const readings = [
    ...moistureReadings(trial),
    meter('far', '2024-04-01', 1),
    meter('near', '2024-04-03', 2),
    meter('unplaced', '2024-04-01', 3),
    meter('core', '2024-04-01', 4, 'c1'),
  ];
  const pairsOf = (toleranceDays: number, tolerance_mm?: number) =>
    calibrationPairs(trial, readings, {
      instrument: 'mw',
      toleranceDays,
      ...(tolerance_mm === undefined ? {} : { tolerance_mm }),
    }).pairs;

  it('takes the nearest place of the same wall that was read in time: 120 up and 90 along are 150 mm', () => {
    expect(pairsOf(2, 150)).toMatchObject([{ reading: 2, daysApart: 2, distance_mm: 150 }]);
    expect(pairsOf(2, 149.9)).toEqual([]);
    expect(pairsOf(1, 500)).toMatchObject([{ reading: 1, daysApart: 0, distance_mm: 500 }]);
    expect(pairsOf(1, 499)).toEqual([]);
  });

  it('takes no other place unless told', () => {
    expect(pairsOf(2)).toEqual([]);
  });
});

describe('instrumentDrift(checks) and trackedChange(changes)', () => {
  const checks = [0, 30, 60, 90].flatMap((days, step) =>
    ['wet', 'dry'].map((block, which) => ({
      day: addDays('2024-01-01', days),
      block,
      value: 50 - 30 * which + 2 * step + (step % 2 === which ? 0.5 : -0.5),
    })),
  );

  it('finds a steady drift over two blocks: the slope of least squares with a level for each', () => {
    const found = instrumentDrift(checks);
    // By hand: the ±0.5 of the two blocks cancel, and 2 units a step over three steps are 6.
    expect(found.drift).toBeCloseTo(6, 10);
    expect(found.days).toBe(90);
    // Eight residuals of ±0.5, Σ = 2 over 5 degrees of freedom, and Σxx = 9000.
    const half = (2.570581835636314 * Math.sqrt(2 / 5) * 90) / Math.sqrt(9000);
    expect(found.interval.upper - found.drift).toBeCloseTo(half, 10);
    refuses(() => instrumentDrift(checks.slice(0, 3)), 'too-few');
    refuses(() => instrumentDrift(checks.map((check) => ({ ...check, day: '2024-01-01' }))), 'no-variation');
  });

  it('correlates changes by wall in whatever units', () => {
    const changes = [-4, -3.5, -1, -0.5, 0.2].map((byCores, index) => ({
      wall: `W${index}`,
      byCores,
      byMeter: 5 * byCores + ([1, -1, 1, -1, 0][index] ?? 0),
    }));
    const found = trackedChange(changes);
    expect(found.sameDirection).toBe(5);
    expect(found.correlation).toBeGreaterThan(0.98);
    const turned = trackedChange(changes.map((one) => ({ ...one, byMeter: -one.byMeter })));
    expect(turned.correlation).toBeCloseTo(-found.correlation, 12);
    refuses(() => trackedChange(changes.slice(0, 3)), 'too-few');
    refuses(() => trackedChange(changes.map((one) => ({ ...one, byMeter: 1 }))), 'no-variation');
  });
});

describe('betweenReaders(readings, instrument)', () => {
  const read = (wall: string, reader: string, value: number, instrument = 'mw') => ({
    day: '2024-03-12',
    wall,
    station: 'low',
    instrument,
    reader,
    value: { kind: 'measured' as const, value },
    origin: { file: 'readings.csv', row: 2 },
  });

  it('averages the variances of the places, worked by hand', () => {
    const readings = [
      ...[read('w1', 'Ada', 40), read('w1', 'Ada', 42), read('w1', 'Ben', 46), read('w1', 'Ben', 48)],
      ...[read('w2', 'Ada', 20), read('w2', 'Ada', 24), read('w2', 'Ben', 21), read('w2', 'Ben', 23)],
      // One reader alone, readers without repeats, another instrument: no part of it.
      ...[read('w3', 'Ada', 1), read('w3', 'Ada', 90), read('w4', 'Ada', 1), read('w4', 'Ben', 90)],
      read('w1', 'Ben', 0, 'rs'),
    ];
    const found = betweenReaders(readings, 'mw');
    // w1: within 2, means 41 and 47, so between (36 − 2)/2 = 17. w2: within (8 + 2)/2 = 5, means equal, so between 0.
    expect(found.repeatability).toBeCloseTo(Math.sqrt((2 + 5) / 2), 12);
    expect(found.betweenReaders).toBeCloseTo(Math.sqrt(17 / 2), 12);
    expect(found.reproducibility).toBeCloseTo(Math.sqrt((2 + 5 + 17) / 2), 12);
    expect(found).toMatchObject({ places: 2, readers: 2 });
    refuses(() => betweenReaders(readings.slice(8), 'mw'), 'too-few');
  });
});
