import { describe, expect, it } from 'vitest';
import { fewestSeriesVisits } from '../../../src/analysis/index.js';
import type { Sampling, Spreads } from '../../../src/planning/walls-needed/change-variance.js';
import { cheapestDesign, costOf, designTable, gridAround } from '../../../src/planning/walls-needed/design-table.js';
import type { PlannedComparison } from '../../../src/planning/walls-needed/difference-errors.js';
import { pilotSpreads } from '../../../src/planning/walls-needed/pilot-spreads.js';
import { plannedChances } from '../../../src/planning/walls-needed/planned-chances.js';
import { designOfSize, wallsOfDesign } from '../../../src/planning/walls-needed/planned-design.js';
import { seriesChances } from '../../../src/planning/walls-needed/series-chances.js';
import { verdictChances } from '../../../src/planning/walls-needed/verdict-chances.js';
import { wallsNeeded } from '../../../src/planning/walls-needed/walls-needed.js';
import { readTrial } from '../../../src/records/index.js';
import { chiSquare, mean, normalDraws, randomStream } from '../../../src/statistics/index.js';
import type { Trial } from '../../../src/trial/index.js';

const spreads: Spreads = {
  ...{ walls: 1.2, stations: 0.9, visits: 0.4, readings: 1, measurement: 0.1 },
  ...{ autocorrelation: 0.3, correlation: 0.4 },
};
const sampling: Sampling = { stations: 3, visitsBefore: 2, visitsAfter: 2 };
const planned: PlannedComparison = { design: { kind: 'pairs', pairs: 8 }, spreads, sampling, dropOut: 0, level: 0.95 };
const wanted = { effect: 4, margin: 2, chance: 0.8 };

describe('wallsNeeded', () => {
  it.each([
    { kind: 'pairs', pairs: 8 },
    { kind: 'complete', treated: 4, untreated: 4 },
    { kind: 'complete', treated: 8, untreated: 4 },
    { kind: 'blocks', blocks: 4, treated: 2, untreated: 2 },
    { kind: 'houses', treated: 3, untreated: 3, wallsPerHouse: 2 },
  ] as const)('$kind: reaches the chance, and one step fewer does not', (design) => {
    const needed = wallsNeeded({ ...planned, design }, wanted);
    if (needed.kind !== 'found') throw new Error('expected walls that reach the chance');
    const steps = needed.walls / wallsOfDesign(designOfSize(design, 1));
    const chanceOf = (size: number) =>
      plannedChances({ ...planned, design: designOfSize(design, size) }, [4], 2)[0]?.worthwhile ?? 1;
    expect(needed.chance).toBeGreaterThanOrEqual(0.8);
    expect(chanceOf(steps)).toBe(needed.chance);
    if (steps > 2) expect(chanceOf(steps - 1)).toBeLessThan(0.8);
  });

  it('says how far the most walls come where none are enough', () => {
    const needed = wallsNeeded({ ...planned, spreads: { ...spreads, walls: 40 } }, wanted);
    expect(needed).toMatchObject({ kind: 'too-many', most: 400 });
    expect(needed.chance).toBeLessThan(0.8);
  });

  it.each([
    ['an effect at the margin', { ...wanted, effect: 2 }],
    ['a chance of 1', { ...wanted, chance: 1 }],
  ])('refuses %s', (_, question) =>
    expect(() => wallsNeeded(planned, question)).toThrowError(expect.objectContaining({ fault: 'out-of-range' })),
  );

  it('refuses two walls, which stay two', () => {
    const act = () => wallsNeeded({ ...planned, design: { kind: 'two-walls' } }, wanted);
    expect(act).toThrowError(expect.objectContaining({ fault: 'not-possible' }));
  });
});

describe('the table of designs', () => {
  const costs = { wall: 200, core: 15, visit: 150, month: 100 };
  const grid = gridAround(planned.design, sampling);
  const rows = designTable(planned, wanted, grid, { costs, months: 14 });

  it('shows that more cores on the same walls stop helping, while walls go on', () => {
    const foundAt = (walls: number, stations: number, visits: number) =>
      rows.find(
        (row) => row.walls === walls && row.sampling.stations === stations && row.sampling.visitsBefore === visits,
      )?.found ?? Number.NaN;
    const first = foundAt(12, 3, 2) - foundAt(12, 1, 2);
    const last = foundAt(12, 12, 2) - foundAt(12, 6, 2);
    expect(last).toBeLessThan(first / 4);
    expect(foundAt(24, 3, 2) - foundAt(12, 3, 2)).toBeGreaterThan(foundAt(12, 12, 2) - foundAt(12, 3, 2));
  });

  it('finds the cheapest design by looking at all of them', () => {
    const enough = rows.filter(({ found }) => found >= 0.8);
    const least = Math.min(...enough.map(({ cost }) => cost ?? Number.NaN));
    expect(cheapestDesign(rows, 0.8)?.cost).toBe(least);
    expect(cheapestDesign(rows, 0.999999999)).toBeUndefined();
  });

  it('costs by hand: 12 walls, 3 stations, 4 visits, 14 months', () => {
    expect(costOf(costs, 12, sampling, 14)).toBe(12 * 200 + 12 * 3 * 4 * 15 + 4 * 150 + 14 * 100);
  });
});

describe('a pilot', () => {
  it('gives the mean over 1,000 probabilities of the chi-square', () => {
    const uncertainty = { variance: 1.44, degreesOfFreedom: 5, inside: 0.1 };
    const found = plannedChances({ ...planned, uncertainty }, [4], 2)[0]?.worthwhile ?? Number.NaN;
    const squares = chiSquare(5);
    const all = Array.from({ length: 1000 }, (_, at) => {
      const walls = Math.sqrt(Math.max(0, (5 * 1.44) / squares.quantile((at + 0.5) / 1000) - 0.1));
      return verdictChances({ ...planned, spreads: { ...spreads, walls } }, 4, 2).worthwhile;
    });
    expect(Math.abs(found - mean(all))).toBeLessThan(0.003);
  });

  it('of few walls lowers the chance that one number would promise, one of many hardly', () => {
    const one = { ...planned, spreads: { ...spreads, walls: 1.2 } };
    const chanceOf = (degreesOfFreedom: number) => {
      const uncertainty = { variance: 1.44, degreesOfFreedom, inside: 0 };
      return plannedChances({ ...one, uncertainty }, [4], 2)[0]?.worthwhile ?? Number.NaN;
    };
    const known = plannedChances(one, [4], 2)[0]?.worthwhile ?? Number.NaN;
    expect(known - chanceOf(3)).toBeGreaterThan(0.05);
    expect(Math.abs(known - chanceOf(2000))).toBeLessThan(0.002);
  });

  it('of a bundled trial gives spreads, and the interval of the one between walls holds its estimate', async () => {
    const pilot = pilotSpreads(await readTrial('datasets/paired-garden-walls'), 0);
    expect(pilot.uncertainty.degreesOfFreedom).toBe(22);
    expect(pilot.count).toBe(24);
    expect(pilot.walls.lower).toBeLessThan(pilot.walls.estimate);
    expect(pilot.walls.upper).toBeGreaterThan(pilot.walls.estimate);
    expect(pilot.spreads.correlation).toBeGreaterThanOrEqual(-1);
    expect(pilot.spreads.correlation).toBeLessThanOrEqual(1);
  });

  it('finds the components that made simulated readings, in the mean over 24 pilots', () => {
    const found = Array.from({ length: 24 }, (_, at) => pilotSpreads(simulatedPilot(at), 0).spreads);
    const variance = (name: 'walls' | 'stations' | 'visits' | 'readings') => mean(found.map((one) => one[name] ** 2));
    // Within four standard errors of the mean over 24 pilots, by the chi-square of their degrees of freedom, or so.
    expect(Math.abs(variance('walls') - 1)).toBeLessThan(0.35);
    expect(Math.abs(variance('stations') - 0.5)).toBeLessThan(0.2);
    expect(Math.abs(variance('visits') - 0.3)).toBeLessThan(0.08);
    expect(Math.abs(variance('readings') - 0.8)).toBeLessThan(0.08);
  });

  it('with one wall in each arm is refused', async () => {
    const trial = await readTrial('datasets/two-walls');
    expect(() => pilotSpreads(trial, 0)).toThrowError(expect.objectContaining({ fault: 'too-few' }));
  });
});

describe('two walls', () => {
  const two = { spreads, sampling: { ...sampling, visitsBefore: 20, visitsAfter: 20 }, level: 0.95 };

  it('are called worthwhile, without any effect, nearly as often as walls left alone lie apart', () => {
    const { chances, apartByThemselves = 0 } = seriesChances(two, 0, 1);
    expect(chances.worthwhile).toBeGreaterThan(0.05);
    expect(chances.worthwhile).toBeLessThan(apartByThemselves);
  });

  it('are not helped by visits: the error of the visits falls, the walls stay apart', () => {
    const more = seriesChances({ ...two, sampling: { ...sampling, visitsBefore: 200, visitsAfter: 200 } }, 0, 1);
    const few = seriesChances(two, 0, 1);
    expect(more.standardError).toBeLessThan(few.standardError / 2);
    expect(more.betweenWalls).toBe(few.betweenWalls);
    expect(more.chances.worthwhile).toBeGreaterThan(few.chances.worthwhile);
  });

  it('against 20,000 simulated pairs of walls, within four Monte Carlo errors', () => {
    const stream = randomStream(5);
    const draws = 20_000;
    const { chances, standardError, betweenWalls } = seriesChances(two, 0, 1);
    const errors = normalDraws(stream, draws).map((z) => z * standardError);
    const apart = normalDraws(stream, draws).map((z) => z * betweenWalls);
    // With many visits the interval is nearly of one width.
    const share = errors.filter((error, at) => error + (apart[at] ?? 0) - 2.09 * standardError > 1).length / draws;
    expect(Math.abs(share - chances.worthwhile)).toBeLessThan(0.012);
  });

  it.each([
    [fewestSeriesVisits - 1, 1],
    [fewestSeriesVisits, 0],
  ])('with %i visits a window are not answerable with chance %i', (visits, chance) => {
    const read = { ...sampling, visitsBefore: visits, visitsAfter: visits };
    expect(seriesChances({ ...two, sampling: read }, 0, 1).chances['not-answerable']).toBeCloseTo(chance, 9);
  });
});

/** Ten walls an arm, four stations, five visits in each window, with components of 1, 0.5, 0.3 and 0.8. */
function simulatedPilot(seed: number): Trial {
  const stream = randomStream(seed, 3);
  const draw = (variance: number) => (normalDraws(stream, 1)[0] ?? 0) * Math.sqrt(variance);
  const names = Array.from({ length: 20 }, (_, at) => `W${at + 1}`);
  const origin = { file: 'readings.csv', row: 2 };
  const readings = names.flatMap((wall) => {
    const change = draw(1);
    const stations = Array.from({ length: 4 }, () => ({ level: draw(4), change: draw(0.5) }));
    return ['2024', '2025'].flatMap((year) =>
      [1, 2, 3, 4, 5].flatMap((day) => {
        const visit = draw(0.3);
        return stations.map((own, at) => {
          const moved = year === '2025' ? change + own.change : 0;
          const value = { kind: 'measured' as const, value: 10 + own.level + moved + visit + draw(0.8) };
          return { date: `${year}-03-0${day}`, wall, station: `${wall}-${at}`, instrument: 'meter', value, origin };
        });
      }),
    );
  });
  return {
    protocol: {
      ...{ title: 'Simulated', claim: '', confidence: 0.95, margin: 2 },
      outcome: { instrument: 'meter', quantity: 'moisture', unit: 'digits', better: 'lower' },
      arms: [
        { arm: 'treated', role: 'treated' },
        { arm: 'control', role: 'control' },
      ],
      instruments: [{ instrument: 'meter', kind: 'microwave' }],
      windows: { before: { from: '2024-03-01', to: '2024-03-31' }, after: { from: '2025-03-01', to: '2025-03-31' } },
      allocation: { method: 'randomised', by: 'a program' },
      blinding: { readers: true, occupants: true, analyst: true },
      disclosures: { funding: '', interests: '' },
    },
    walls: names.map((wall, at) => ({ wall, arm: at % 2 === 0 ? 'treated' : 'control', origin })),
    ...{ stations: [], readings, cores: [], climate: [], beliefs: [], events: [] },
    source: { fingerprint: '', files: [] },
  };
}
