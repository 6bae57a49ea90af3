import { describe, expect, it } from 'vitest';
import { changesChart, choicesChart, intervalChart, renderSvg, renderSvgs } from '../../src/charts/index.js';
import { compiledWith } from '../../src/charts/other-sizes.js';
import { reportDocument } from '../../src/report/report-document.js';
import { bundledOpinion } from '../helpers/bundled-opinions.js';
import { swept } from '../helpers/sweep.js';

const walls = { treated: 12, untreated: 12 };
const rows = [{ label: 'Pairs', estimate: -2.5, lower: -3.4, upper: -1.6, isPrimary: true }];
const data = {
  title: 'The difference',
  rows,
  unit: '% by mass',
  better: 'lower',
  margin: 2,
  level: 0.95,
  decimals: 1,
  walls,
} as const;

/** Its tags with their words, by the alphabet: ticks that a second size has not may stand in another order. */
function partsOf(svg: string): readonly string[] {
  return [...svg.replace(/c[0-9a-f]{10}-/g, '').matchAll(/<[^>]*>[^<]*/g)].map(([part]) => part).sort();
}

describe('renderSvgs(sizes)', () => {
  it.each(swept(['paired-garden-walls', 'electrodes-in-walls', 'water-up-a-wall'], (_, at) => at === 2))(
    'draws both sizes of every chart of %s as renderSvg draws each of them',
    async (trial) => {
      const blocks = reportDocument(await bundledOpinion(trial)).sections.flatMap((section) => section.blocks);
      const charts = blocks.flatMap((block) => (block.kind === 'figure' ? block.charts : []));
      const pairs = charts.flatMap(({ wide, narrow }) => (narrow === undefined ? [] : [[wide, narrow] as const]));
      expect(pairs.length).toBeGreaterThan(2);
      for (const pair of pairs) {
        const together = await renderSvgs(pair);
        for (const [at, size] of pair.entries())
          expect(partsOf(together[at] ?? '')).toEqual(partsOf(await renderSvg(size)));
      }
    },
  );

  it('draws charts that have nothing in common, each by itself', async () => {
    const unlike = [intervalChart(data), choicesChart(data)];
    expect(await renderSvgs(unlike)).toEqual([await renderSvg(unlike[0]!), await renderSvg(unlike[1]!)]);
  });

  it('gives the first size again where it stands twice, and nothing for nothing', async () => {
    const [one, other] = await renderSvgs([intervalChart(data), intervalChart(data)]);
    expect(other).toBe(one);
    expect(await renderSvgs([])).toEqual([]);
  });
});

describe('compiledWith(sizes, compile)', async () => {
  const compile = (await import('vega-lite')).compile as never as (specification: object) => { spec: never };
  const countOf = (sizes: Parameters<typeof compiledWith>[0]) =>
    compiledWith(sizes, (own) => compile(own).spec).others.length;

  it('takes a second size with it where the layers are the same, and only there', () => {
    expect(countOf([intervalChart(data), intervalChart(data, { width: 340 })])).toBe(1);
    expect(countOf([intervalChart(data), choicesChart(data)])).toBe(0);
    const group = {
      ...{ style: 0, label: 'treated', mean: -1, isTreated: true },
      walls: [{ wall: 'W1', change: -1, before: 7, after: 6 }],
    };
    const changes = { title: 't', groups: [group], level: 0.95, quantity: 'moisture', unit: '%', decimals: 1 };
    expect(countOf([changesChart(changes), changesChart(changes, { width: 340 })])).toBe(1);
    const bold = { ...intervalChart(data), config: { font: 'serif' } };
    expect(countOf([intervalChart(data), bold])).toBe(0);
    expect(countOf([intervalChart(data)])).toBe(0);
  });

  it('leaves the specifications that it is given as they were', () => {
    const sizes = [intervalChart(data), intervalChart(data, { width: 340 })];
    const before = structuredClone(sizes);
    countOf(sizes);
    expect(sizes).toEqual(before);
  });
});
