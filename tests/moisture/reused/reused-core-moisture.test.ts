import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hiddenDrift, type ReusedCore, reusedCoreMoisture, serialCorrelation } from '../../../src/moisture/index.js';

const first = { day: '2023-03-01', dry_g: 47.83 };
const once: ReusedCore = {
  core: 'W01-a',
  dryMasses: [first],
  weighings: [{ day: '2024-03-01', mass_g: 50.2 }],
};
const corrected = (core: ReusedCore) =>
  reusedCoreMoisture(core).map(({ moisture }) => (moisture.kind === 'corrected' ? moisture.value_pct : undefined));

describe('reusedCoreMoisture', () => {
  it('shows 4.955 % and truly 5.729 % after a chip of 0.35 g, worked by hand: 50.20/47.48', () => {
    const [visit] = reusedCoreMoisture({ ...once, dryMasses: [first, { day: '2024-03-01', dry_g: 47.48 }] });
    expect(visit?.apparent_pct).toBeCloseTo(4.955, 3);
    expect(visit?.moisture).toMatchObject({
      kind: 'corrected',
      value_pct: expect.closeTo(5.7287, 4),
      correction_pp: expect.closeTo(0.774, 3),
    });
  });

  it('shows 4.955 % and truly 4.409 % after 0.25 g of salt, worked by hand: (50.20 − 48.08)/48.08', () => {
    const dryMasses = [first, { day: '2024-03-01', dry_g: 48.08, saltGained_g: 0.25 }] as const;
    expect(corrected({ ...once, dryMasses })[0]).toBeCloseTo(4.4093, 4);
  });

  it('makes no correction after the last drying', () => {
    expect(reusedCoreMoisture(once)[0]?.moisture).toEqual({
      kind: 'not-known',
      because: 'no-dry-mass-after',
    });
  });

  const year = ['2023-04-01', '2023-05-01', '2023-12-01', '2024-03-01'].map((day) => ({ day, mass_g: 50 }));
  const dryAt = (core: ReusedCore) =>
    reusedCoreMoisture(core).map(({ moisture }) => (moisture.kind === 'corrected' ? moisture.dry_g : Number.NaN));

  it('spreads lost grains by visit and gained salt by time', () => {
    const lost = dryAt({ ...once, weighings: year, dryMasses: [first, { day: '2024-03-01', dry_g: 47.43 }] });
    for (const [index, dry_g] of lost.entries()) expect(dry_g).toBeCloseTo(47.83 - 0.1 * (index + 1), 10);
    const gained = dryAt({ ...once, weighings: year, dryMasses: [first, { day: '2024-03-01', dry_g: 48.196 }] });
    // 31, 61, 275 and 366 of 366 days.
    for (const [index, days] of [31, 61, 275, 366].entries())
      expect(gained[index]).toBeCloseTo(47.83 + 0.001 * days, 10);
  });

  it('keeps both parts apart where the salt was analysed: net nothing, 0.4 g each way', () => {
    const dryMasses = [first, { day: '2024-03-01', dry_g: 47.83, saltGained_g: 0.4 }] as const;
    const dry = dryAt({ ...once, weighings: year, dryMasses });
    expect(dry[0]).toBeCloseTo(47.83 - 0.1 + (0.4 * 31) / 366, 10);
    expect(dry[3]).toBeCloseTo(47.83, 10);
  });

  it('uses a drying in the middle from then on, and is most certain on the days of drying', () => {
    const dryMasses = [first, { day: '2023-05-01', dry_g: 47.63 }, { day: '2024-03-01', dry_g: 47.43 }] as const;
    const visits = reusedCoreMoisture({ ...once, weighings: year, dryMasses, weighing_g: 0.005 });
    const uncertainty = visits.map(({ moisture }) =>
      moisture.kind === 'corrected' ? (moisture.standardUncertainty_pp ?? 0) : 0,
    );
    expect(dryAt({ ...once, weighings: year, dryMasses })).toEqual(
      [47.73, 47.63, 47.53, 47.43].map((g) => expect.closeTo(g, 10)),
    );
    // Balance alone: 0.005 · sqrt(1 + (50/47.63)²)/47.63 of 100 %.
    expect(uncertainty[1]).toBeCloseTo(0.01522, 5);
    expect(uncertainty[0]).toBeGreaterThan(5 * (uncertainty[1] ?? 0));
  });

  it('never corrects where the dry mass has not changed, and always upward where grains were lost', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5, noNaN: true }), (lost_g) => {
        const dryMasses = [first, { day: '2024-03-01', dry_g: first.dry_g - lost_g }] as const;
        for (const { moisture } of reusedCoreMoisture({ ...once, weighings: year, dryMasses })) {
          if (moisture.kind !== 'corrected') throw new Error('a visit between two dryings was not corrected');
          if (lost_g === 0) expect(moisture.correction_pp).toBe(0);
          else expect(moisture.correction_pp).toBeGreaterThanOrEqual(0);
        }
      }),
    );
  });

  it('refuses days out of order, days that do not exist, and masses of nothing', () => {
    expect(() => reusedCoreMoisture({ ...once, weighings: [...year].reverse() })).toThrow(/order of days/);
    expect(() => reusedCoreMoisture({ ...once, weighings: [{ day: '2024-02-30', mass_g: 50 }] })).toThrow(/2024-02-30/);
    expect(() => reusedCoreMoisture({ ...once, dryMasses: [{ ...first, dry_g: 0 }] })).toThrow(/above 0 g/);
  });
});

describe('hiddenDrift', () => {
  const drier: ReusedCore = {
    ...once,
    weighings: [
      { day: '2023-03-02', mass_g: 52.36 },
      { day: '2024-03-01', mass_g: 50.2 },
    ],
  };

  it('says which loss would look like the whole change, and undoing it leaves no change', () => {
    const drift = hiddenDrift(drier);
    expect(drift.apparentChange_pp).toBeCloseTo(-4.516, 3);
    const dry_g = first.dry_g + drift.explainedBy_g;
    expect(50.2 / dry_g).toBeCloseTo(52.36 / first.dry_g, 12);
    expect(drift.explainedBy_g).toBeLessThan(0);
  });

  it('weighs a gram lost: 0.35 g lower the reading by 0.774 points to first order of the loss', () => {
    // −d(1+u) with d = 0.35/47.83 and the true u of 0.057287; here with the apparent one.
    expect(0.35 * hiddenDrift(drier).perGramLost_pp).toBeCloseTo(0.768, 3);
    expect(() => hiddenDrift(once)).toThrow(/at least 2 visits/);
  });
});

describe('serialCorrelation', () => {
  it('gives 0.3 for 12, 11, 9, 8, worked by hand', () => {
    // About the mean: 2, 1, −1, −2 with products 2 − 1 + 2 = 3 over squares 10.
    expect(serialCorrelation([[12, 11, 9, 8]])).toEqual({
      lagOne: 0.3,
      about: 'cores',
      cores: 1,
      visits: 4,
      expectedIfIndependent: -0.25,
    });
  });

  it('gives 0.420060331825037 for one core of six visits (R 4: acf of the series, lag 1)', () => {
    expect(serialCorrelation([[9, 8.6, 8.9, 8.1, 7.7, 7.9]]).lagOne).toBeCloseTo(0.420060331825037, 12);
  });

  it('does not take what all cores did together for serial correlation', () => {
    const season = [5, 4, 2, 1, 2, 4];
    const noise = [
      [0.1, -0.2, 0.1, -0.1, 0.2, -0.1],
      [-0.1, 0.2, -0.1, 0.1, -0.2, 0.1],
    ];
    const cores = noise.map((own) => own.map((value, visit) => value + (season[visit] ?? 0)));
    expect(serialCorrelation([cores[0] ?? []]).lagOne).toBeGreaterThan(0.3);
    const together = serialCorrelation(cores);
    expect(together.lagOne).toBeLessThan(-0.5);
    expect(together.lagOne).toBeCloseTo(serialCorrelation([noise[0] ?? []]).lagOne, 10);
  });

  it('always lies between −1 and 1, and is the same after shifting and scaling', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 5, maxLength: 5 }), {
          minLength: 1,
          maxLength: 4,
        }),
        (series) => {
          let plain: number;
          try {
            plain = serialCorrelation(series).lagOne;
          } catch {
            return;
          }
          expect(Math.abs(plain)).toBeLessThanOrEqual(1);
          const moved = series.map((core) => core.map((value) => 3 * value + 50));
          expect(serialCorrelation(moved).lagOne).toBeCloseTo(plain, 9);
        },
      ),
    );
  });

  it('refuses two visits, a missing visit, and readings without variation', () => {
    expect(() => serialCorrelation([[1, 2]])).toThrow(/at least 3 visits/);
    expect(() => serialCorrelation([])).toThrow(/at least 3 visits/);
    expect(() =>
      serialCorrelation([
        [1, 2, 3],
        [1, 2],
      ]),
    ).toThrow(/every core/);
    expect(() => serialCorrelation([[2, 2, 2]])).toThrow(/vary/);
  });
});
