import { describe, expect, it } from 'vitest';
import { findDrift } from '../../../src/records/sensor-log/find-drift.js';
import { sensorRecord } from '../../../src/records/sensor-log/sensor-record.js';
import { trackSensor } from '../../../src/records/sensor-log/sensor-track.js';
import { leastCoverage } from '../../../src/trial/index.js';

const start = Date.parse('2024-03-01T00:00:00Z');
const hour = 3_600_000;

/** The record of readings at given hours, and the typical step that it rests on. */
function recordOf(readings: readonly (readonly [hours: number, value: number])[]) {
  const { track, add, close } = trackSensor('with-zone');
  for (const [row, [hours, value]] of readings.entries())
    add(start + hours * hour, start + hours * hour, value, row + 2);
  close();
  return { record: sensorRecord('S1', track), typical: track.typical.median() };
}

/** Two values in turn, hourly, so that every step is 1. */
const inTurn = (count: number, from = 0) => Array.from({ length: count }, (_, k) => [from + k, 20 + (k % 2)] as const);

describe('the limits of a sensor record (common practice, no source)', () => {
  it('a gap is more than one and a half spacings', () => {
    const withGap = (hours: number) => [...inTurn(50), ...inTurn(50, 49 + hours)];
    expect(recordOf(withGap(1.5)).record.gaps.count).toBe(0);
    expect(recordOf(withGap(1.51)).record.gaps.count).toBe(1);
  });

  it('a spike is more than ten typical steps', () => {
    const { typical } = recordOf(inTurn(400));
    const withSpike = (size: number) => inTurn(400).map(([at, value]) => [at, at === 200 ? 21 + size : value] as const);
    // The reading before is 21, the one after 21.
    expect(recordOf(withSpike(9.99 * typical)).record.spikes.count).toBe(0);
    expect(recordOf(withSpike(10.01 * typical)).record.spikes.count).toBe(1);
  });

  /** Runs of equal values by their lengths, one after the other. */
  function inRuns(lengths: readonly number[], spacing_h = 1) {
    const values = lengths.flatMap((length, run) => Array.from({ length }, () => 20 + (run % 2)));
    return values.map((value, at) => [at * spacing_h, value] as const);
  }
  const others = (length: number) => Array.from({ length: 10 }, () => length);

  it('stuck is five times as long as the other runs: 25 readings beside runs of 5, and not beside runs of 5.1', () => {
    expect(recordOf(inRuns([...others(5), 25])).record.stuck.count).toBe(1);
    expect(recordOf(inRuns([...others(5).slice(1), 6, 25])).record.stuck.count).toBe(0);
    expect(recordOf(inRuns([...others(5).slice(1), 6, 26])).record.stuck.count).toBe(1);
  });

  it('stuck is at least twelve readings', () => {
    expect(recordOf(inRuns([...others(1), 12], 3)).record.stuck.count).toBe(1);
    expect(recordOf(inRuns([...others(1), 11], 3)).record.stuck.count).toBe(0);
  });

  it('stuck is at least a day: 25 hourly readings, and not 24', () => {
    expect(recordOf(inRuns([...others(1), 25])).record.stuck.count).toBe(1);
    expect(recordOf(inRuns([...others(1), 24])).record.stuck.count).toBe(0);
  });
});

describe('the limits of drift (common practice, no source)', () => {
  const dayOf = (k: number) => new Date(start + k * 24 * hour).toISOString().slice(0, 10);
  /** Days from the changes between them. */
  const daysOf = (changes: readonly number[], coverage = 1) => {
    let mean = 20;
    return [0, ...changes].map((change, k) => {
      mean += change;
      return { day: dayOf(k), mean, readings: 24, coverage, row: k + 2 };
    });
  };
  const still = (changes: number) => ({ days: daysOf(Array.from({ length: changes }, () => 0)) });
  const creeping = (changes: number, perDay: number) => ({
    days: daysOf(Array.from({ length: changes }, (_, k) => perDay + (k % 2 === 0 ? 1 : -1))),
  });

  it('is looked for from twenty changes shared with two other sensors', () => {
    const [enough] = findDrift([creeping(20, 3), still(20), still(20)]);
    expect(enough).toBeDefined();
    expect(findDrift([creeping(19, 3), still(19), still(19)])[0]).toBeUndefined();
    expect(findDrift([creeping(20, 3), still(20)])[0]).toBeUndefined();
  });

  it('is more than five standard errors of a median, worked by hand: 5 · √(π/2) · 1.4826/√20 = 2.0775 of the deviation', () => {
    const of = (perDay: number) => findDrift([creeping(20, perDay), still(20), still(20)])[0];
    expect(of(2.07)?.drifts).toBe(false);
    expect(of(2.085)?.drifts).toBe(true);
    expect(of(2)?.standardError).toBeCloseTo((Math.sqrt(Math.PI / 2) * 1.4826) / Math.sqrt(20), 9);
  });

  it('counts days with three quarters of their readings', () => {
    expect(leastCoverage).toBe(0.75);
    const covered = (coverage: number) =>
      [creeping(20, 3), still(20), still(20)].map(({ days }) => ({ days: days.map((day) => ({ ...day, coverage })) }));
    expect(findDrift(covered(0.75))[0]).toBeDefined();
    expect(findDrift(covered(0.74))[0]).toBeUndefined();
  });
});
