import { beforeAll, describe, expect, it } from 'vitest';
import { formOpinion, type Opinion, type Trial } from '../../../src/index.js';
import { type NextTrial, nextTrial } from '../../../src/planning/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

type Planned = Extract<NextTrial, { kind: 'planned' }>;

const next = (trial: Trial) => nextTrial(trial, formOpinion(trial));
const planned = (trial: Trial): Planned => {
  const found = next(trial);
  if (found?.kind !== 'planned') throw new Error(`not planned: ${JSON.stringify(found)}`);
  return found;
};

// Changes about −1, about a margin of 2: undecided.
const scattered = [-4, 2.2, -2.8, 1.4, -1.9, -0.9];
const still = [1.8, -2.2, 0.9, -1.4, 0.3, 0.6];
const wide = madeTrial(wallsWithChanges(scattered, still));

describe('nextTrial(trial, opinion)', () => {
  let opinion: Opinion;
  let settling: Planned;
  beforeAll(() => {
    opinion = formOpinion(wide);
    settling = planned(wide);
  });

  it('is planned for an open verdict, and nothing is for a firm one', () => {
    expect(opinion.verdict.code).toBe('undecided');
    expect(settling).toMatchObject({ design: 'complete', effect: 4, margin: 2, walls: 12 });
    expect(
      next(madeTrial(wallsWithChanges([-4, -4.4, -3.8, -4.1, -4.3, -3.9], [0, 0.2, -0.1, 0.1, -0.2, 0.15]))),
    ).toBeUndefined();
  });

  it('finds the walls an arm that power.t.test of R gives, but for what a pilot leaves uncertain', () => {
    // R 4.2.2: power.t.test(delta = 2, sd = 2.00898, power = 0.8)$n is 16.86, and 22.21 for 0.9, where that spread is known exactly.
    const [least, more] = settling.ways[0]?.sizes ?? [];
    const walls = [least, more].map((size) => (size?.needed.kind === 'found' ? size.needed.walls / 2 : Number.NaN));
    expect(walls[0]).toBeGreaterThanOrEqual(17);
    expect(walls[0]).toBeLessThan(1.5 * 17);
    expect(walls[1]).toBeGreaterThanOrEqual(23);
    expect(walls[1]).toBeLessThan(2 * 23);
    expect(least?.denied).toBeGreaterThan(0.8);
  });

  it('needs no fewer walls for a greater chance, and no more for twice the visits', () => {
    const of = (way: number, size: number) => {
      const needed = settling.ways[way]?.sizes[size]?.needed;
      return needed?.kind === 'found' ? needed.walls : Number.POSITIVE_INFINITY;
    };
    for (const way of [0, 1]) expect(of(way, 1)).toBeGreaterThan(of(way, 0));
    for (const size of [0, 1]) expect(of(1, size)).toBeLessThanOrEqual(of(0, size));
    expect(settling.ways[1]?.visitsBefore).toBe(2 * (settling.ways[0]?.visitsBefore ?? 0));
  });

  it('says where no payable trial would settle it', () => {
    const wild = madeTrial(
      wallsWithChanges(
        scattered.map((change) => 6 * change),
        still.map((change) => 6 * change),
      ),
    );
    for (const { sizes } of planned(wild).ways)
      for (const { needed } of sizes) expect(needed).toMatchObject({ kind: 'too-many', most: 400 });
  });

  it.each([
    ['no-margin', { ...wide, protocol: { ...soundProtocol, margin: undefined } as never }],
    ['no-two-walls-alike', madeTrial(wallsWithChanges([-2], [0]))],
    [
      'units-not-walls',
      madeTrial(wallsWithChanges(scattered, still).map((wall, at) => ({ ...wall, site: `${wall.arm} ${at % 3}` }))),
    ],
    ['no-spread', madeTrial(wallsWithChanges([-2, -2, -2], [0, 0, 0]))],
  ] as const)('gives a reason where these walls say nothing of it: %s', (reason, trial) => {
    const { margin, ...protocol } = trial.protocol;
    const own = margin === undefined ? { ...trial, protocol } : trial;
    expect(next(own)).toEqual({ kind: 'not-planned', reason });
  });

  it('costs what the plan says: walls, readings, visits and months, worked by hand', () => {
    const planning = { costs: { wall: 100, core: 10, visit: 50, month: 20, currency: 'EUR' } } as never;
    const costed = planned({ ...wide, protocol: { ...wide.protocol, planning } });
    const [way] = costed.ways;
    const [size] = way?.sizes ?? [];
    if (way === undefined || size?.needed.kind !== 'found') throw new Error('no size');
    const visits = way.visitsBefore + way.visitsAfter;
    const { walls } = size.needed;
    expect(size.cost).toBe(100 * walls + 10 * walls * way.stations * visits + 50 * visits + 20 * costed.months);
  });
});
