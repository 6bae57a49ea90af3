import { describe, expect, it } from 'vitest';
import type { Estimate, Named } from '../../src/analysis/index.js';
import { estimateInWords, labelOf, reasonInWords } from '../../src/labels/index.js';

const compared = { units: 'wall', value: 'change' } as const;
const estimate: Estimate = {
  ...{ id: 'wall-change', unit: '% by mass', estimate: -1, walls: { treated: 6, untreated: 6 } },
  method: { kind: 'welch', compared },
};

describe('labelOf(answer)', () => {
  it.each([
    ['mixed-model', 'Linear mixed model, stations nested in walls'],
    ['randomisation', 'Randomisation (permutation) test'],
    ['baseline-adjusted', 'Baseline-adjusted (ANCOVA)'],
    ['cluster-robust', 'Station-level regression, cluster-robust (CR2) by wall'],
    ['bootstrap', 'Bootstrap, resampling walls'],
    ['hedges-g', 'Hedges’ g'],
  ])('gives %s its standard name', (id, name) => {
    expect(labelOf({ id })).toBe(name);
  });

  it('names the primary difference by its design, and by what is compared', () => {
    expect(labelOf(estimate)).toBe('Difference of changes');
    expect(labelOf({ ...estimate, method: { kind: 'paired-blocks', compared } })).toBe(
      'Difference of changes inside pairs',
    );
    const after = { units: 'wall', value: 'after' } as const;
    expect(labelOf({ ...estimate, method: { kind: 'block-model', compared: after } })).toBe(
      'Difference of after values inside blocks',
    );
    expect(labelOf({ id: 'wall-change', reason: { code: 'single-pair' } })).toBe('Difference of changes');
  });

  it('names a member of a family by what it is about, and the end that stands for several', () => {
    const named: Named = { id: 'without-height-300', about: { kind: 'height', height_mm: 300 } };
    expect(labelOf(named)).toBe('Without the stations at 300 mm');
    const station = { kind: 'station', wall: 'W01', station: 'low' } as const;
    const lowest = {
      ...estimate,
      id: 'without-station',
      about: station,
      endOf: { end: 'lowest', answers: 9 },
    } as const;
    expect(labelOf(lowest)).toBe('Without low of wall W01 (lowest of 9)');
  });

  it('leaves an id that is none of ours as it is', () => {
    expect(labelOf({ id: 'my-own' })).toBe('my-own');
  });
});

describe('estimateInWords(estimate), reasonInWords(reason)', () => {
  it('say which units are compared, and that nothing was read before', () => {
    const sites = { ...estimate, method: { kind: 'welch', compared: { units: 'site', value: 'after' } } } as const;
    const { quantity, assumptions } = estimateInWords(sites);
    expect(quantity).toBe('treated sites’ after value less untreated sites’ after value');
    expect(assumptions.join()).toMatch(/sites are the units.*nothing was read before/);
  });

  it('carry the numbers of a reason', () => {
    const counts = { treated: 1, untreated: 1 };
    expect(reasonInWords({ code: 'no-replication', compared, counts })).toMatch(/1 treated and 1 untreated wall /);
    expect(reasonInWords({ code: 'no-degrees-of-freedom', compared, counts, blocks: 2 })).toMatch(/in 2 blocks/);
  });
});
