import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clusterPools } from '../../../src/statistics/resampling/bootstrap/bootstrap-sample.js';
import { parallelReplicates } from '../../../src/statistics/resampling/bootstrap/parallel-replicates.js';
import { allReplicates } from '../../../src/statistics/resampling/bootstrap/replicates.js';
import { bootstrap, bootstrapInParallel } from '../../../src/statistics/resampling/index.js';
import { compiledModule } from '../../helpers/compiled-module.js';

const pools = clusterPools('test', { kind: 'one-group', clusters: [[1, 2], [4], [3, 9, 5], [7]] }, 'values');
let built: ReturnType<typeof compiledModule>;
let worker: URL;

beforeAll(() => {
  built = compiledModule('src/statistics/resampling/bootstrap/bootstrap-in-parallel.ts');
  worker = new URL('./bootstrap-worker.js', built.url);
}, 60_000);
afterAll(() => built.remove());

describe('parallelReplicates', () => {
  it.each([1, 2, 7])(
    'parallelReplicates over %i threads gives the draws of no threads, bit for bit',
    async (threads) => {
      const alone = allReplicates(pools, 42, 4_321);
      const spread = await parallelReplicates(pools, 42, 4_321, threads, worker);
      expect(spread.deviations).toEqual(alone.deviations);
      expect(spread.standardErrors).toEqual(alone.standardErrors);
    },
  );

  it('chunks differ from one another, and more draws begin with the fewer', () => {
    const { deviations } = allReplicates(pools, 42, 1_050);
    expect(deviations.slice(0, 50)).not.toEqual(deviations.slice(1_000));
    expect(allReplicates(pools, 42, 1_500).deviations.slice(0, 1_200)).toEqual(
      allReplicates(pools, 42, 1_200).deviations,
    );
  });

  it('a thread that cannot start rejects', async () => {
    await expect(parallelReplicates(pools, 1, 10, 1, new URL('file:///nowhere.js'))).rejects.toThrow(/nowhere/);
  });
});

describe('bootstrapInParallel', () => {
  it('bootstrapInParallel, as built, finds its worker and gives the result of bootstrap, bit for bit', async () => {
    const module: { bootstrapInParallel: typeof bootstrapInParallel } = await import(built.url.href);
    const strata = [
      { treated: [[1], [3], [4, 5]], untreated: [[0], [2, 2]] },
      { treated: [[7], [9]], untreated: [[5], [6], [4]] },
    ];
    const sample = { kind: 'stratified', strata } as const;
    const options = { seed: 12, draws: 2_500, method: 'studentised', level: 0.8, weighing: 'values' } as const;
    expect(await module.bootstrapInParallel(sample, { ...options, threads: 3 })).toEqual(bootstrap(sample, options));
  });
});

describe('bootstrapInParallel refuses', () => {
  const sample = { kind: 'one-group', clusters: [[1], [2]] } as const;
  it.each([
    ['no threads', () => bootstrapInParallel(sample, { seed: 1, threads: 0 }), /at least 1 thread/],
    ['one cluster', () => bootstrapInParallel({ kind: 'one-group', clusters: [[1]] }, { seed: 1 }), /2 clusters/],
    ['level 2', () => bootstrapInParallel(sample, { seed: 1, level: 2 }), /level/],
  ])('%s', async (_case, call, message) => {
    await expect(call()).rejects.toThrow(message);
  });
});
