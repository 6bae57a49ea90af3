import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Answer, defensibleAnalyses, fragility, leaveOneOut } from '../../../src/analysis/index.js';
import { verdictCode } from '../../../src/opinion/verdict-code.js';
import { readTrial } from '../../../src/records/index.js';
import type { Interval } from '../../../src/statistics/index.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';
import { analysed, stationTrial } from '../../helpers/station-trial.js';

const codeOf = (interval: Interval) => verdictCode(interval, 2, 'lower');
const folder = (name: string) => join(import.meta.dirname, '..', '..', '..', 'datasets', name);
const intervalOf = (answer: Answer) => (answer.kind === 'estimated' ? answer.estimate.interval : undefined);

describe('fragility', () => {
  it.each(['damp-cellar-walls', 'who-read-the-meter', 'picked-for-being-wet'])(
    'agrees with leaveOneOut and defensibleAnalyses made the long way: %s',
    async (name) => {
      const trial = await readTrial(folder(name));
      const { readings, changes, design } = analysed(trial);
      const seen: (Interval | undefined)[] = [];
      const found = fragility(trial, readings, design, (interval) => `${seen.push(interval)}`);
      const long = [
        ...leaveOneOut(trial, readings, design).map(({ answer }) => answer),
        ...defensibleAnalyses(trial, readings, { design, stations: changes.stations }),
      ];
      for (const answer of long.filter((one) => intervalOf(one) !== undefined))
        expect(seen, JSON.stringify(answer)).toContainEqual(intervalOf(answer));
      const known = long.filter((answer) => answer.kind !== 'estimated' || answer.estimate.id !== 'blind-only');
      const without = leaveOneOut(trial, readings, design).length;
      expect(found?.choices).toHaveLength(known.length - without);
    },
  );

  it('names the wall that turns the verdict, into what, and that zero leaves the interval', () => {
    const trial = madeTrial(wallsWithChanges([-4.1, -3.9, -4, -4.2, -3.8, 11], [0, 0.1, -0.1, 0.2, -0.2, 0]));
    const { readings, design } = analysed(trial);
    const found = fragility(trial, readings, design, codeOf);
    expect(found?.code).toBe('undecided');
    expect(found?.turning.map(({ of, left, code, zero }) => [of, left, code, zero])).toEqual([
      ['wall', 'T6', 'worthwhile', 'out'],
    ]);
    expect(found?.tried).toEqual({ wall: 12, block: 0, reader: 0, height: 0, depth: 0, station: 0 });
    // Halves and quarters of windows whose one reading day lies in none of them have no interval, and are no part of the share.
    expect(found?.choices.filter(({ code }) => code !== undefined).map(({ id }) => id)).toContain('ranks');
  });

  it('a sound trial keeps its verdict without anything, and by all choices', () => {
    const trial = stationTrial({
      isPaired: true,
      value: ({ wall, place, window, isTreated }) =>
        9 +
        0.2 * ((wall * 5 + place) % 7) -
        2 * place +
        (window === 'after' ? 0.1 * ((wall * 3 + place) % 5) - (isTreated ? 4 : 0) : 0),
    });
    const { readings, design } = analysed(trial);
    const found = fragility(trial, readings, design, codeOf);
    expect(found).toMatchObject({ code: 'worthwhile', turning: [], needed: [], keptShare: 1 });
    expect(found?.tried).toEqual({ wall: 0, block: 6, reader: 0, height: 3, depth: 0, station: 36 });
    expect(found?.blindOnly).toBeUndefined();
  });

  it('names the reader, the height and the station that turn it, and how blind readings alone would judge', () => {
    const trial = stationTrial({
      heights: [200, 700],
      value: ({ wall, place, window, isTreated, visit }) => {
        const own = 9 + 0.2 * ((wall * 5 + place) % 7);
        if (window === 'before') return own;
        return own + 0.1 * ((wall * 3 + place) % 5) - (isTreated && visit === 1 && place === 1 ? 12 : 0);
      },
      reading: ({ visit }) => (visit === 1 ? { reader: 'Keen', knewArm: 'yes' } : { reader: 'Blind', knewArm: 'no' }),
    });
    const { readings, design } = analysed(trial);
    const found = fragility(trial, readings, design, codeOf);
    expect(found?.code).toBe('worthwhile');
    const turning = found?.turning.map(({ of, left, code, zero }) => [of, left, code, zero]) ?? [];
    expect(turning).toContainEqual(['reader', 'Keen', 'no-worthwhile-effect', 'in']);
    expect(turning).toContainEqual(['height', '700', 'no-worthwhile-effect', 'in']);
    expect(turning.some(([of]) => of === 'wall')).toBe(false);
    expect(found?.blindOnly).toMatchObject({ code: 'no-worthwhile-effect', zero: 'in' });
    expect(found?.choices.every(({ id }) => id !== 'blind-only')).toBe(true);
    expect(found?.keptShare).toBeLessThan(1);
  });

  it('lists the unit without which there is no interval, and is nothing where there is none to begin with', () => {
    const two = madeTrial(wallsWithChanges([-4, -4.2], [0, 0.1, 0.2]));
    const { readings, design } = analysed(two);
    expect(fragility(two, readings, design, codeOf)?.needed.map(({ left }) => left)).toEqual(['T1', 'T2']);
    const one = madeTrial(wallsWithChanges([-4], [0, 0.1]));
    expect(fragility(one, analysed(one).readings, analysed(one).design, codeOf)).toBeUndefined();
  });

  it('does not look at the record of the air nor count what readers knew among the choices', async () => {
    const trial = await readTrial(folder('damp-cellar-walls'));
    const { readings, design } = analysed(trial);
    const silent = { ...trial, climate: [] };
    const unsaid = readings.map(({ knewArm: _, ...rest }) => rest);
    const full = fragility(trial, readings, design, codeOf);
    expect(fragility(silent, unsaid, design, codeOf)?.keptShare).toBe(full?.keptShare);
  });
});
