import { describe, expect, it } from 'vitest';
import { verdictOfTrial } from '../../src/opinion/index.js';
import type { Trial } from '../../src/trial/index.js';
import { ofSweep, swept } from '../helpers/sweep.js';
import {
  type Base,
  coreStatements,
  dropStatement,
  faults,
  MARGIN,
  plant,
  soundSeries,
  soundTrial,
  soundTrialFor,
} from './fault-trials.js';

/** Fields in which two trials differ, as `walls.treatedOn`; a list of another length counts as one field. */
function differences(one: unknown, other: unknown, place = ''): string[] {
  if (Object.is(one, other)) return [];
  const areLists = Array.isArray(one) && Array.isArray(other);
  if (areLists && one.length !== other.length) return [place];
  if (areLists) return [...new Set(one.flatMap((item, at) => differences(item, other[at], place)))];
  if (!isRecord(one) || !isRecord(other)) return [place];
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...keys].flatMap((key) => differences(one[key], other[key], place === '' ? key : `${place}.${key}`));
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The plain difference in differences of wall means, computed here by hand. */
function differenceIn({ walls, cores }: Trial): number {
  const changeOf = (arm: string) => {
    const names = new Set(walls.flatMap((wall) => (wall.arm === arm ? wall.wall : [])));
    const own = cores.filter(({ wall }) => names.has(wall));
    const meanOf = (isAfter: boolean) => {
      const some = own.filter(({ date }) => date >= '2025' === isAfter);
      const moistures = some.map(
        ({ wet_g = 0, dry_g = 0, container_g }) => (100 * (wet_g - dry_g)) / (dry_g - container_g),
      );
      return moistures.reduce((sum, value) => sum + value, 0) / some.length;
    };
    return meanOf(true) - meanOf(false);
  };
  return changeOf('device') - changeOf('sham');
}

const numbers = (count: number) => Array.from({ length: count }, (_, number) => number);

describe('the generator of trials', () => {
  it('gives the same trial for the same seed, and another for another', () => {
    expect(soundTrial(7)).toEqual(soundTrial(7));
    expect(soundTrial(7).cores).not.toEqual(soundTrial(8).cores);
    expect(soundSeries(7)).toEqual(soundSeries(7));
    expect(soundSeries(7).readings).not.toEqual(soundSeries(8).readings);
  });

  it.each([
    {},
    { design: 'pairs' },
    { design: 'blocks-of-four' },
    { outcome: 'direct-meter' },
    { outcome: 'embedded-sensors', perArm: 4 },
  ] as const satisfies Partial<Base>[])('makes trials that can be answered, %o', (base) => {
    const { verdict } = verdictOfTrial(soundTrial(3, { ...base, effect: -2 * MARGIN }), 1);
    expect(verdict.weaknesses.filter(({ seriousness }) => seriousness === 'fatal')).toEqual([]);
    expect(['worthwhile', 'some-effect']).toContain(verdict.code);
  });

  it('makes two walls that are answered by their series', () => {
    const { facts, verdict } = verdictOfTrial(soundSeries(5, { effect: -2 * MARGIN, autocorrelation: 0.3 }), 1);
    expect(facts.primary).toMatchObject({ kind: 'estimated', method: 'paired-series' });
    expect(verdict.code).toBe('worthwhile');
  });

  it.each(['complete', 'pairs', 'blocks-of-four'] as const)('puts the effect in on average, %s', (design) => {
    const trials = ofSweep(50, 10);
    for (const effect of [0, -MARGIN, -2 * MARGIN]) {
      const found = numbers(trials).map((seed) => differenceIn(soundTrial(seed + 1, { design, effect })));
      const mean = found.reduce((sum, value) => sum + value, 0) / found.length;
      // A trial's standard error is 0.5 by the standard deviations put in.
      expect(Math.abs(mean - effect)).toBeLessThan((4 * 0.5) / Math.sqrt(trials));
    }
  });

  it('spreads walls and their changes as it says', () => {
    const level = (trial: Trial, year: string) =>
      trial.walls.map(({ wall }) => {
        const own = trial.cores.filter((core) => core.wall === wall && core.date.startsWith(year));
        return (
          own.reduce((sum, { wet_g = 0, dry_g = 0, container_g }) => sum + (wet_g - dry_g) / (dry_g - container_g), 0) *
          (100 / own.length)
        );
      });
    const variance = (values: readonly number[]) => {
      const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
      return values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1);
    };
    const trials = numbers(40).map((seed) => soundTrial(seed + 100));
    const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const [before, changes] = [
      meanOf(trials.map((trial) => variance(level(trial, '2024')))),
      meanOf(
        trials.map((trial) =>
          variance(level(trial, '2025').map((after, at) => after - (level(trial, '2024')[at] ?? 0))),
        ),
      ),
    ];
    // Walls 1.5², stations 0.5² over six, readings 0.3² over eighteen; changes 0.9², 0.6² over six, readings twice.
    expect(before / (2.25 + 0.25 / 6 + 0.09 / 18)).toBeCloseTo(1, 0.8);
    expect(changes / (0.81 + 0.36 / 6 + 0.18 / 18)).toBeCloseTo(1, 0.8);
  });

  it('weighs with last digits that are as even as a balance’s', () => {
    const counts = new Array<number>(10).fill(0);
    for (const { container_g, wet_g = 0, dry_g = 0 } of numbers(10).flatMap((seed) => soundTrial(seed + 1).cores))
      for (const mass of [container_g, wet_g, dry_g]) {
        const digit = Math.round(mass * 100) % 10;
        counts[digit] = (counts[digit] ?? 0) + 1;
      }
    const expected = counts.reduce((sum, count) => sum + count, 0) / 10;
    const chiSquared = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    // The 99.9 % point of chi-squared with nine degrees of freedom (R, qchisq).
    expect(chiSquared).toBeLessThan(27.88);
  });

  it('takes a few milliseconds for a trial', () => {
    const batches = numbers(10).map((batch) => {
      const start = performance.now();
      for (const seed of numbers(10)) soundTrial(10 * batch + seed + 1);
      return (performance.now() - start) / 10;
    });
    // 0.8 ms on a machine that does nothing else; the fastest batch, as tests run beside others.
    expect(Math.min(...batches)).toBeLessThan(5);
  });
});

describe('faults', () => {
  it('have names of their own', () => {
    expect(new Set(faults.map(({ name }) => name)).size).toBe(faults.length);
  });

  it.each(swept(faults, (_, at) => at % 4 === 0).map((fault) => [fault.name, fault] as const))(
    '%s changes what it says and nothing else',
    (_, fault) => {
      const sound = soundTrialFor(fault, 11);
      const kept = structuredClone(sound);
      const planted = plant(fault, sound, 11);
      expect(differences(sound, planted).sort()).toEqual([...fault.changes].sort());
      expect(differences(sound, kept)).toEqual([]);
      expect(differences(plant(fault, sound, 11), planted)).toEqual([]);
    },
  );
});

describe('dropStatement', () => {
  const fields: Readonly<Record<(typeof coreStatements)[number], readonly string[]>> = {
    'allocation by': ['protocol.allocation.by'],
    'plan day': ['protocol.plannedOn'],
    'treatment days': ['walls.treatedOn'],
    reader: ['cores.reader'],
    'knew arm': ['cores.knewArm'],
    'oven batches': ['batches'],
    'meter checks': ['checks'],
    climate: ['climate'],
    site: ['walls.site'],
    material: ['walls.material'],
    thickness: ['walls.thickness_mm'],
    funding: ['protocol.disclosures.funding'],
    interests: ['protocol.disclosures.interests'],
  };

  it.each(coreStatements)('takes away %s and nothing else', (statement) => {
    const isMeter = statement === 'meter checks';
    const trial = soundTrial(5, isMeter ? { outcome: 'direct-meter' } : {});
    expect(differences(trial, dropStatement(trial, statement))).toEqual(fields[statement]);
  });
});
