import { describe, expect, it } from 'vitest';
import { commonPlacesAnswer, lossesByPlace, primaryDifference } from '../../../src/analysis/index.js';
import { fisherExact, normalDraws, randomStream } from '../../../src/statistics/index.js';
import { analysed, type MadeReading, type StationTrial, stationTrial } from '../../helpers/station-trial.js';

/** The treatment dries the middle by 5, the top by 1 and the foot by 0; walls are alike but for a little. */
const effects = [0, -5, -1];
const levels = [12, 9, 4];
const wiggle = (wall: number, place: number) => 0.13 * ((wall * 7 + place * 3) % 5);

function trialWith(isLost: (reading: MadeReading) => boolean, further: Partial<StationTrial> = {}) {
  return stationTrial({
    value: (reading) => {
      const { wall, place, window, isTreated } = reading;
      if (window === 'after' && isLost(reading)) return undefined;
      const effect = window === 'after' && isTreated ? (effects[place] ?? 0) : 0;
      return (levels[place] ?? 0) + wiggle(wall, place) + (window === 'after' ? wiggle(wall + 2, place) : 0) + effect;
    },
    ...further,
  });
}

const lossesOf = (trial: ReturnType<typeof trialWith>) => {
  const { readings, design } = analysed(trial);
  return lossesByPlace(trial, readings, design);
};

describe('lossesByPlace', () => {
  it('names the height at which the treated walls lost their after values, with Fisher’s test', () => {
    const found = lossesOf(trialWith(({ isTreated, place }) => isTreated && place === 1));
    expect(found.largest).toMatchObject({ of: 'height', at_mm: 700, difference: 1, isUneven: true });
    expect(found.largest?.lost.treated).toEqual({ stations: 6, lost: 6, share: 1, walls: 6, readings: 12 });
    expect(found.largest?.lost.untreated).toMatchObject({ lost: 0, share: 0 });
    expect(found.largest?.pValue).toBeCloseTo((1 / 924) * 2, 12);
    expect(found.all.difference).toBeCloseTo(1 / 3, 14);
    expect(found.heights.map(({ at_mm, isUneven }) => [at_mm, isUneven])).toEqual([
      [200, false],
      [700, true],
      [1400, false],
    ]);
    expect(found.depths).toHaveLength(1);
  });

  it('a height lost alike in both arms is lost, and not unevenly', () => {
    const found = lossesOf(trialWith(({ place, wall }) => place === 2 && wall < 4));
    expect(found.heights[2]).toMatchObject({ difference: 0, isUneven: false, pValue: 1 });
    expect(found.heights[2]?.lost.treated.lost).toBe(2);
  });

  it('the limit of 0.1: 1 of 10 more is not uneven, 2 of 10 more are, on two walls and not on one', () => {
    const lost = (walls: readonly number[]) =>
      lossesOf(trialWith(({ place, wall }) => place === 0 && walls.includes(wall), { walls: 10 })).heights[0];
    expect(lost([0])).toMatchObject({ difference: 0.1, isUneven: false });
    expect(lost([0, 2])).toMatchObject({ difference: 0.2, isUneven: true });
    const tenth = lossesOf(trialWith(({ place, wall }) => place === 0 && wall < 3 && wall % 2 === 0, { walls: 20 }));
    expect(tenth.heights[0]).toMatchObject({ difference: 0.1, isUneven: false, lost: { treated: { walls: 2 } } });
    const oneWall = lossesOf(trialWith(({ wall, place }) => wall === 0 && place > 0, { walls: 3 }));
    expect(oneWall.all.difference).toBeCloseTo(2 / 9, 12);
    expect(oneWall.all.isUneven).toBe(false);
  });

  it('a station below the detection limit after was read, and a station named anew is told as such', () => {
    const below = trialWith(() => false, {
      reading: ({ isTreated, place, window }) =>
        isTreated && place === 1 && window === 'after' ? { value: { kind: 'below-detection', limit: 1 } } : {},
    });
    expect(lossesOf(below).all.lost.treated.lost).toBe(0);
    const renamed = trialWith(() => false, {
      reading: ({ wall, place, window }) => (wall === 0 && place === 1 && window === 'after' ? { station: 'new' } : {}),
    });
    expect(lossesOf(renamed).onlyAfter).toEqual({ treated: 1, untreated: 0 });
  });

  it('counts missed visits against what most walls had', () => {
    const trial = trialWith(({ wall, visit }) => wall === 2 && visit === 1);
    expect(lossesOf(trial).visits).toEqual({
      treated: { expected: 24, missed: 1 },
      untreated: { expected: 24, missed: 0 },
    });
  });

  it('Fisher’s p of stations lost by chance, each alone, is below 0.01 in at most 1 % of 400 seeded trials', () => {
    const stream = randomStream(20240501);
    let alarms = 0;
    for (let round = 0; round < 400; round++) {
      const lost = [...normalDraws(stream, 36)].map((draw) => draw > 0.8);
      const having = (from: number) => lost.slice(from, from + 18).filter(Boolean).length;
      const cells = (from: number) => ({ having: having(from), not: 18 - having(from) });
      if (fisherExact({ x: cells(0), y: cells(18) }).pValue < 0.01) alarms++;
    }
    expect(alarms).toBeLessThanOrEqual(4);
  });

  it('answers nothing of heights without places, and nothing at all without windows', () => {
    const trial = trialWith(() => false, { changes: { stations: [] } });
    expect(lossesOf(trial)).toMatchObject({ heights: [], depths: [], all: { isUneven: false } });
    const { windows: _, ...protocol } = trial.protocol;
    const { readings, design } = analysed(trial);
    expect(lossesByPlace({ ...trial, protocol }, readings, design).all.lost.treated.stations).toBe(0);
  });
});

describe('commonPlacesAnswer', () => {
  const answered = (trial: ReturnType<typeof trialWith>) => {
    const { changes, design } = analysed(trial);
    const common = commonPlacesAnswer(trial, changes.stations, design);
    const primary = primaryDifference(design, { level: 0.95, unit: '' });
    if (common.kind !== 'estimated' || primary.kind !== 'estimated') throw new Error(JSON.stringify(common));
    return { common: common.estimate.estimate, primary: primary.estimate.estimate };
  };

  it.each([true, false])(
    'the middle lost in the treated walls alone is left out of both arms, pairs: %s',
    (isPaired) => {
      const lost = trialWith(({ isTreated, place }) => isTreated && place === 1, { isPaired });
      const without = trialWith(() => false, { isPaired, heights: [200, 700, 1400] });
      const everywhere = trialWith(({ place }) => place === 1, { isPaired });
      expect(answered(lost).common).toBeCloseTo(answered(everywhere).primary, 12);
      expect(answered(lost).primary).not.toBeCloseTo(answered(lost).common, 3);
      expect(answered(without).common).toBe(answered(without).primary);
      expect(answered(without).primary).toBeLessThan(answered(lost).common - 0.5);
    },
  );

  it('without pairs, a place with half its treated stations lost is left out, and one with a tenth lost is kept', () => {
    const lost = (walls: readonly number[]) =>
      trialWith(({ place, wall }) => place === 1 && walls.includes(wall), { walls: 10 });
    const everywhere = trialWith(({ place }) => place === 1, { walls: 10 });
    const half = answered(lost([0, 2, 4, 6, 8]));
    expect(half.common).toBeCloseTo(answered(everywhere).primary, 12);
    expect(half.primary).toBeLessThan(half.common - 0.3);
    const tenth = answered(lost([0]));
    expect(tenth.common).toBe(tenth.primary);
  });

  it('says why it cannot: no places, none in common', () => {
    const bare = trialWith(() => false, { changes: { stations: [] } });
    const none = trialWith(({ isTreated, place }) => (isTreated ? place !== 1 : place === 1));
    for (const [trial, code] of [
      [bare, 'no-places'],
      [none, 'no-common-place'],
    ] as const) {
      const { changes, design } = analysed(trial);
      expect(commonPlacesAnswer(trial, changes.stations, design)).toMatchObject({
        notEstimated: { id: 'common-places', reason: { code } },
      });
    }
  });
});
