import { describe, expect, it } from 'vitest';
import {
  againstPassMark,
  comparisonDesign,
  lastDigits,
  missingWalls,
  type Side,
  type WallChange,
} from '../../../src/analysis/index.js';
import { copiedMasses } from '../../../src/analysis/judging/copied-masses.js';
import { madeTrial, soundProtocol } from '../../helpers/made-trial.js';
import { stationTrial } from '../../helpers/station-trial.js';

function wall(name: string, side: Side, block: string, after: number): WallChange {
  return { wall: name, arm: side, side, block, before: 8, after, change: after - 8, stations: 1, places: 'same' };
}

describe('numbers worked by hand', () => {
  it('a wall that stands at the target has reached it, whichever way is better', () => {
    const after = [4, 5, 6];
    const walls = (['treated', 'untreated'] as const).flatMap((side) =>
      after.map((value, at) => wall(`${side}${at}`, side, '', value)),
    );
    const { design } = comparisonDesign(walls);
    const passMark = { kind: 'target' as const, target: 5, by: '2025-06-01', source: 'an agreement', asMargin: false };
    const reached = (better: 'lower' | 'higher') => {
      const outcome = { ...soundProtocol.outcome, better };
      return againstPassMark(madeTrial([], { protocol: { ...soundProtocol, outcome, passMark } }), design)?.reached;
    };
    expect(reached('lower')?.treated).toEqual({ walls: 2, of: 3 });
    expect(reached('higher')?.treated).toEqual({ walls: 2, of: 3 });
  });

  it('a pair is lost with either of its walls: one treated wall and none untreated lose one pair of four', () => {
    const pair = (block: string, treated: number, untreated: number) => [
      wall(`T${block}`, 'treated', block, treated),
      wall(`U${block}`, 'untreated', block, untreated),
    ];
    const { design } = comparisonDesign([...pair('1', 5, 8), ...pair('2', 4, 8), ...pair('3', 6, 8)]);
    const found = missingWalls(design, [{ wall: 'T4', arm: 'treated', side: 'treated', block: '4' }]);
    expect(found?.missing).toEqual({ treated: 1, untreated: 0, pairs: 1 });
    expect(found?.movesBy).toBe(1 / 4);
    // Differences −3, −4 and −2; a fourth at the worst or the best of them.
    expect(found?.bounds).toEqual({ lower: -13 / 4, upper: -11 / 4 });
  });

  it('the smallest p-value of last digits counts as often as tests were made', () => {
    // Last digits 0, 1, 2, 5 and 7 alone, among readings that span 600 steps.
    let at = 0;
    const value = () => {
      const turn = (37 * at++) % 300;
      return (10 * Math.floor(turn / 5) + ([0, 1, 2, 5, 7][turn % 5] ?? 0)) / 10;
    };
    const trial = stationTrial({ visits: 3, value });
    const { tested, pValue } = lastDigits(trial);
    const all = tested.flatMap(({ uniform, sides, windows }) =>
      [uniform, sides, windows].flatMap((test) => (test === undefined ? [] : [test.pValue])),
    );
    expect(all.length).toBeGreaterThan(1);
    expect(pValue).toBe(Math.min(1, Math.min(...all) * all.length));
  });

  it('copied masses: the reach is a tenth of the span, and the chance that of a tie in each mass', () => {
    // Dry masses and water every 7 steps of 0.01 g over 126 steps, and the last core as the first.
    const cores = Array.from({ length: 20 }, (_, at) => {
      const step = at === 19 ? 0 : at;
      const dry_g = 40 + 0.07 * step;
      return {
        ...{ date: '2024-04-01', wall: `W${at}`, station: 'a', container_g: 0 },
        ...{ dry_g: Math.round(dry_g * 100) / 100, wet_g: Math.round((dry_g + 4 + 0.07 * step) * 100) / 100 },
        origin: { file: 'cores.csv', row: at + 2 },
      };
    });
    const found = copiedMasses(cores);
    if (found === undefined) throw new Error('nothing found');
    expect(found.repeats.map(({ one, other }) => [one.row, other.row])).toEqual([[2, 21]]);
    // The middle nine tenths of 0, 0, 7, …, 126 span 119.35 steps: a tenth of it in whole steps.
    expect(found.reach).toBe(11);
    // Near are neighbours 7 steps apart: 18 pairs, one more with the copy, and the copy itself. Ties in each mass: one.
    expect(found.near).toBe(20);
    const chance = Math.max(1 / 23, 2 / (20 + 23)) ** 2;
    expect(found.expected).toBeCloseTo(20 * chance, 12);
    expect(found.pValue).toBeCloseTo(1 - (1 - chance) ** 20, 12);
  });
});
