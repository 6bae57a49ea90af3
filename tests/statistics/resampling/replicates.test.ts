import { describe, expect, it } from 'vitest';
import { clusterPools } from '../../../src/statistics/resampling/bootstrap/bootstrap-sample.js';
import { allReplicates } from '../../../src/statistics/resampling/bootstrap/replicates.js';

const pools = clusterPools('test', { kind: 'one-group', clusters: [[1, 2], [4], [3, 9, 5], [7]] }, 'values');

describe('allReplicates(pools, seed, draws)', () => {
  it('chunks differ from one another, and more draws begin with the fewer', () => {
    const { deviations } = allReplicates(pools, 42, 1_050);
    expect(deviations.slice(0, 50)).not.toEqual(deviations.slice(1_000));
    expect(allReplicates(pools, 42, 1_500).deviations.slice(0, 1_200)).toEqual(
      allReplicates(pools, 42, 1_200).deviations,
    );
  });
});
