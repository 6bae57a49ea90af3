import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { comparisonDesign, primaryDifference, unitsOfComparison, wallChanges } from '../../../src/analysis/index.js';
import { moistureReadings } from '../../../src/moisture/index.js';
import { verdictOfTrial } from '../../../src/opinion/index.js';
import { simulateTrial } from '../../../src/planning/simulated-wall/simulate-trial.js';
import { simulateChanges } from '../../../src/planning/simulated-wall/simulated-changes.js';
import { plainDesign, type SimulatedDesign } from '../../../src/planning/simulated-wall/simulated-design.js';
import { writeSimulatedTrial } from '../../../src/planning/simulated-wall/write-simulated-trial.js';
import { readTrial } from '../../../src/records/index.js';
import type { Trial } from '../../../src/trial/index.js';

const design = (changes: Partial<SimulatedDesign> = {}): SimulatedDesign => ({ ...plainDesign, ...changes });
const quarter = { kind: 'supply', factor: 0.25 } as const;
const seeds = Array.from({ length: 12 }, (_, seed) => seed);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const deviation = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0) / (values.length - 1));
const changesOf = (changes: Partial<SimulatedDesign>, isTreated: boolean) =>
  seeds.flatMap((seed) =>
    simulateTrial(design(changes), seed).truth.walls.flatMap((wall) =>
      wall.isTreated === isTreated ? [wall.change] : [],
    ),
  );

function withoutSource({ source: _, ...trial }: Trial) {
  return JSON.parse(JSON.stringify(trial, (key, value: unknown) => (key === 'origin' ? undefined : value)));
}

describe('simulateTrial', () => {
  it('gives the same trial for the same seed, and another for another', () => {
    expect(simulateTrial(plainDesign, 7)).toEqual(simulateTrial(plainDesign, 7));
    expect(simulateTrial(plainDesign, 7).trial.cores).not.toEqual(simulateTrial(plainDesign, 8).trial.cores);
  });

  it.each<[string, Partial<SimulatedDesign>]>([
    ['complete', {}],
    ['pairs, salts, a leak and a meter', { layout: 'pairs', chloride_pct: 0.3, leaks: 1, instrument: 'meter' }],
    ['blocks of four that lose walls', { layout: 'blocks-of-four', dropOut: 0.1 }],
    ['houses', { layout: 'houses', readersKnow: 'and-say-so', shaved_pp: 1 }],
  ])('writes a folder that reads as the trial, with the truth beside it: %s', async (_, changes) => {
    const folder = await mkdtemp(join(tmpdir(), 'simulated-'));
    try {
      const simulated = simulateTrial(design({ treated: 6, untreated: 6, treatment: quarter, ...changes }), 3);
      await writeSimulatedTrial(simulated, folder);
      const read = await readTrial(folder);
      expect(withoutSource(read)).toEqual(withoutSource(simulated.trial));
      expect(JSON.parse(await readFile(join(folder, 'truth.json'), 'utf8'))).toEqual(simulated.truth);
      expect(await readdir(folder)).not.toContain('lock.json');
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  });

  it('states everything that firm evidence rests on', () => {
    const evidence = seeds
      .slice(0, 4)
      .map((seed) => verdictOfTrial(simulateTrial(design({ layout: 'pairs' }), seed).trial, 1).verdict.evidence);
    expect(evidence.filter((word) => word === 'firm').length).toBeGreaterThanOrEqual(3);
  });

  it('has no effect where nothing is done, and a fall where less rises, less is drawn or more is given off', () => {
    const effectOf = (treatment: SimulatedDesign['treatment']) =>
      mean(seeds.map((seed) => simulateTrial(design({ treatment }), seed).truth.effect));
    const [ofHalf, ofQuarter] = [effectOf({ kind: 'supply', factor: 0.5 }), effectOf(quarter)];
    expect(effectOf({ kind: 'nothing' })).toBe(0);
    expect(ofHalf).toBeLessThan(-1);
    expect(ofQuarter).toBeLessThan(ofHalf - 1);
    // The supply goes with the square of the sorptivity.
    expect(effectOf({ kind: 'sorptivity', factor: 0.5 })).toBeCloseTo(ofQuarter, 9);
    expect(effectOf({ kind: 'evaporation', factor: 1.5 })).toBeLessThan(-0.5);
  });

  it('has a front that summer evaporation draws down: walls are drier in the months after it', () => {
    const levels = (season: SimulatedDesign['season']) => {
      const { trial } = simulateTrial(design({ season, visits: 6 }), 2);
      const of = (months: readonly string[]) =>
        mean(
          trial.cores.flatMap(({ date, wet_g = 0, dry_g = 0, container_g }) =>
            months.includes(date.slice(0, 7)) ? [(100 * (wet_g - dry_g)) / (dry_g - container_g)] : [],
          ),
        );
      return of(['2024-03']) - of(['2024-05']);
    };
    expect(levels('yearly')).toBeGreaterThan(0.5);
    expect(Math.abs(levels('none'))).toBeLessThan(0.4);
  });

  it('spreads treated walls further where they respond unlike', () => {
    const plain = deviation(changesOf({ treatment: quarter }, true));
    expect(deviation(changesOf({ treatment: quarter, treatmentSpread: 0.5 }, true))).toBeGreaterThan(1.3 * plain);
  });

  it('has skewed changes where they are meant to be', () => {
    const skewOf = (values: readonly number[]) =>
      mean(values.map((value) => ((value - mean(values)) / deviation(values)) ** 3));
    expect(skewOf(changesOf({ ownChange: 0.5, ownChangeShape: 'skewed' }, false))).toBeLessThan(-1);
    expect(Math.abs(skewOf(changesOf({}, false)))).toBeLessThan(0.6);
  });

  it('lets walls of a pair change alike', () => {
    const within = (shared: number) =>
      deviation(
        seeds.flatMap((seed) => {
          const { trial, truth } = simulateTrial(design({ layout: 'pairs', shared }), seed);
          const changeOf = new Map(truth.walls.map(({ wall, change }) => [wall, change]));
          const blocks = [...new Set(trial.walls.map(({ block }) => block))];
          return blocks.map((block) => {
            const [one, other] = trial.walls
              .filter((wall) => wall.block === block)
              .map(({ wall }) => changeOf.get(wall) ?? 0);
            return (one ?? 0) - (other ?? 0);
          });
        }),
      );
    expect(within(0.9)).toBeLessThan(0.6 * within(0));
  });

  it('lets knowing readers shave, whether they say so or not, and the truth stays as it is', () => {
    const honest = simulateTrial(design(), 4);
    const [stated, hidden] = (['and-say-so', 'and-hide-it'] as const).map((readersKnow) =>
      simulateTrial(design({ readersKnow, shaved_pp: 1 }), 4),
    );
    const estimateOf = (trial: Trial) => {
      const { primary } = verdictOfTrial(trial, 1).facts;
      return primary.kind === 'estimated' ? primary.estimate.estimate : Number.NaN;
    };
    for (const one of [stated, hidden]) {
      expect(one?.truth).toEqual(honest.truth);
      expect(estimateOf(one?.trial ?? honest.trial) - estimateOf(honest.trial)).toBeCloseTo(-1, 1);
    }
    expect(stated?.trial.cores.some(({ knewArm }) => knewArm === 'yes')).toBe(true);
    expect(hidden?.trial.cores.some(({ knewArm }) => knewArm === 'yes')).toBe(false);
  });

  it('rests wetter and gives off less where there is salt', () => {
    const meanOf = (chloride_pct: number) =>
      mean(
        simulateTrial(design({ chloride_pct, treatment: { kind: 'supply', factor: 0 } }), 1).trial.cores.flatMap(
          ({ date, wet_g = 0, dry_g = 0, container_g }) =>
            date > '2025' ? [(100 * (wet_g - dry_g)) / (dry_g - container_g)] : [],
        ),
      );
    expect(meanOf(1)).toBeGreaterThan(meanOf(0) + 0.5);
  });

  it.each<[string, Partial<SimulatedDesign>]>([
    ['treated', { treated: 0 }],
    ['visits', { visits: 1.5 }],
    ['shared', { shared: 1 }],
    ['dropOut', { dropOut: -0.1 }],
    ['ownChange', { ownChange: -1 }],
    ['ownChange', { ownChange: Number.NaN }],
    ['margin', { margin: 0 }],
    ['heights_mm', { heights_mm: [] }],
    ['factor', { treatment: { kind: 'supply', factor: -1 } }],
    ['pairs', { layout: 'pairs', treated: 4, untreated: 5 }],
    ['blocks of four', { layout: 'blocks-of-four', treated: 3, untreated: 3 }],
    ['houses', { layout: 'houses', treated: 4, untreated: 6 }],
  ])('refuses what cannot be, and names it: %s', (name, changes) => {
    expect(() => simulateTrial(design(changes), 1)).toThrow(new RegExp(name));
  });
});

describe('simulateChanges', () => {
  it.each<[string, Partial<SimulatedDesign>]>([
    ['complete', {}],
    ['pairs', { layout: 'pairs', dropOut: 0.1 }],
    ['houses', { layout: 'houses' }],
    ['knowing readers', { readersKnow: 'and-hide-it', shaved_pp: 0.5, leaks: 1 }],
  ])('gives the station means of the whole trial but for the balance, %s', (_, changes) => {
    for (const seed of [1, 2, 3]) {
      const own = design({ treatment: quarter, ...changes });
      const { trial } = simulateTrial(own, seed);
      const { facts } = verdictOfTrial(trial, 1);
      const fast = simulateChanges(own, seed);
      expect(fast.protocol).toEqual(trial.protocol);
      const changes_ = wallChanges({ ...trial, cores: [] }, fast.stations);
      const { units } = unitsOfComparison(trial, changes_.walls);
      const primary = primaryDifference(comparisonDesign(units).design, { level: 0.95, unit: '' });
      if (primary.kind !== 'estimated' || facts.primary.kind !== 'estimated') throw new Error('no interval');
      expect(moistureReadings(trial).length).toBeGreaterThan(0);
      expect(primary.method).toBe(facts.primary.method);
      expect(Math.abs(primary.estimate.estimate - facts.primary.estimate.estimate)).toBeLessThan(0.02);
      expect(Math.abs(primary.estimate.interval.upper - facts.primary.estimate.interval.upper)).toBeLessThan(0.03);
    }
  });
});
