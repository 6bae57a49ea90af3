import { describe, expect, it } from 'vitest';
import { laterYears } from '../../../src/findings/later-years/later-years.js';
import { moistureReadings } from '../../../src/moisture/index.js';
import { welch } from '../../../src/statistics/index.js';
import type { Reading, Trial } from '../../../src/trial/index.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

// Treated on 10 June 2024, read in April 2024 and April 2025; the after window ends on 31 May 2025.
const made = madeTrial(wallsWithChanges([-4, -3.6, -4.4], [0, 0.4, -0.2]));
const treatedOn = '2024-06-10';
const starts = new Map(made.walls.map(({ wall }) => [wall, treatedOn]));
const beforeOf = (wall: string) => 8 + 0.25 * (Number(wall.slice(1)) - 1);

/** Further readings of every wall: its before value and so much more. */
function readOn(date: string, more: readonly number[], walls = made.walls): readonly Reading[] {
  return walls.map(({ wall }, at) => ({
    ...{ date, wall, station: '', instrument: 'core', origin: { file: 'readings.csv', row: 2 } },
    value: { kind: 'measured' as const, value: beforeOf(wall) + (more[at] ?? 0) },
  }));
}

function yearsOf(further: readonly Reading[], trial: Trial = made, startOf: ReadonlyMap<string, string> = starts) {
  const read = { ...trial, readings: [...trial.readings, ...further] };
  return laterYears(read, moistureReadings(read), startOf);
}

const second = [-3, -2.8, -3.5, 0.1, 0.3, -0.4];

describe('laterYears', () => {
  it('compares a year beyond the window with the before window: Welch of the changes until then', () => {
    const [year, ...others] = yearsOf(readOn('2026-04-10', second));
    expect(others).toEqual([]);
    expect(year).toMatchObject({ year: 2, days: { from: '2026-04-10', to: '2026-04-10' }, readings: 6 });
    if (year?.answer.kind !== 'estimated') throw new Error('not estimated');
    const expected = welch(second.slice(0, 3), second.slice(3));
    expect(year.answer.estimate.estimate).toBeCloseTo(expected.estimate, 12);
    expect(year.answer.estimate.interval.lower).toBeCloseTo(expected.interval.lower, 12);
    expect(year.walls[0]).toMatchObject({ wall: 'T1', before: 8, after: 5 });
  });

  it('counts years from the treatment: the eve of the second anniversary is year 2, the day itself year 3', () => {
    const years = yearsOf([
      ...readOn('2026-06-09', second),
      ...readOn(
        '2026-06-10',
        second.map((one) => one / 2),
      ),
    ]);
    expect(years.map(({ year, readings }) => [year, readings])).toEqual([
      [2, 6],
      [3, 6],
    ]);
    expect(years[1]?.walls[0]?.change).toBeCloseTo(-1.5, 12);
  });

  it('leaves the after window to the primary answer: its last day is in no later year, the next day is', () => {
    expect(yearsOf(readOn('2025-05-31', second))).toEqual([]);
    const [year] = yearsOf(readOn('2025-06-01', second));
    // Still inside the first year after the treatment.
    expect(year).toMatchObject({ year: 1, readings: 6 });
    expect(year?.walls[0]?.change).toBeCloseTo(-3, 12);
  });

  it('counts each wall’s years from its own treatment', () => {
    const late = new Map(made.walls.map(({ wall }) => [wall, ['T3', 'U3'].includes(wall) ? '2025-06-10' : treatedOn]));
    const windows = {
      before: { from: '2024-03-01', to: '2024-05-31' },
      after: { from: '2025-06-10', to: '2025-12-31' },
    };
    const walls = made.walls.map((wall) =>
      late.get(wall.wall) === treatedOn ? wall : { ...wall, treatedOn: '2025-06-10', windows },
    );
    const years = yearsOf(readOn('2026-08-10', second), { ...made, walls }, late);
    expect(years.map(({ year, walls: own }) => [year, own.map(({ wall }) => wall)])).toEqual([
      [2, ['T3', 'U3']],
      [3, ['T1', 'T2', 'U1', 'U2']],
    ]);
  });

  it('walls that were not read before are not in it, and one arm alone gives the reason', () => {
    const treated = made.walls.filter(({ arm }) => arm === 'treated');
    const [year] = yearsOf(readOn('2026-04-10', second, treated));
    expect(year?.answer).toMatchObject({ kind: 'not-estimated', walls: { treated: 3, untreated: 0 } });
    const blind = { ...made, readings: made.readings.filter(({ wall, date }) => wall !== 'T1' || date > '2025') };
    expect(yearsOf(readOn('2026-04-10', second), blind)[0]?.walls).toHaveLength(5);
  });

  it('a treatment on 29 February has its anniversary on 1 March', () => {
    const leap = new Map(made.walls.map(({ wall }) => [wall, '2024-02-29']));
    expect(yearsOf(readOn('2026-02-28', second), made, leap)[0]?.year).toBe(2);
    expect(yearsOf(readOn('2026-03-01', second), made, leap)[0]?.year).toBe(3);
  });

  it('nothing without such readings', () => {
    expect(yearsOf([])).toEqual([]);
  });
});
