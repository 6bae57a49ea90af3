import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  agreementChart,
  beforeAfterChart,
  type ChartSpecification,
  calibrationChart,
  chancesChart,
  changesChart,
  choicesChart,
  confidenceCurveChart,
  currentChart,
  dryingChart,
  elevationChart,
  heightProfileChart,
  intervalChart,
  renderSvg,
  sensorLogChart,
  seriesChart,
  timelineChart,
  wallMapChart,
  wettingFrontChart,
} from '../../src/charts/index.js';
import { amountColour, changeColour, groupStyle, inkOn } from '../../src/charts/theme.js';
import { addDays } from '../../src/plain/days.js';

const hostile = '<script>alert(1)</script> </svg> "&" \u202e';

const charts: Record<string, ChartSpecification> = {
  agreementChart: agreementChart({
    title: hostile,
    difference: 'meter less core',
    points: [
      { mean: 4, difference: -1 },
      { mean: 8, difference: 2.25 },
    ],
    bias: { estimate: 0.5, lower: -0.25, upper: 1.25 },
    lowerLimit: { estimate: -2, lower: -3, upper: -1 },
    upperLimit: { estimate: 3, lower: 2, upper: 4 },
    share: 0.9,
    walls: 2,
    unit: '% by mass',
    decimals: 2,
    level: 0.95,
  }),
  intervalChart: intervalChart({
    title: 'The difference',
    rows: [
      { label: hostile, estimate: -2.6, lower: -3.4, upper: -1.8 },
      { label: 'Randomisation', estimate: -2.6 },
    ],
    unit: '% by mass',
    better: 'lower',
    margin: 2,
    level: 0.95,
    walls: { treated: 12, untreated: 11 },
    decimals: 2,
  }),
  beforeAfterChart: beforeAfterChart({
    title: 'Before and after',
    groups: [
      { label: hostile, walls: [{ wall: hostile, before: 9.25, after: 6.5 }] },
      { label: 'control', walls: [{ wall: 'B', before: 8, after: 8.125 }] },
    ],
    quantity: 'moisture content',
    unit: '% by mass',
    decimals: 2,
  }),
  calibrationChart: calibrationChart({
    title: hostile,
    points: [
      { moisture: 4, reading: 31 },
      { moisture: 8, reading: 47 },
      { moisture: 6, reading: 40 },
    ],
    band: [
      { moisture: 4, line: 31.5, lower: 30, upper: 33, singleLower: 26, singleUpper: 37 },
      { moisture: 8, line: 47.5, lower: 46, upper: 49, singleLower: 42, singleUpper: 53 },
    ],
    walls: 3,
    unit: '% by mass',
    decimals: 1,
    level: 0.95,
  }),
  currentChart: currentChart({
    title: hostile,
    unit: 'mA',
    arms: [
      {
        arm: hostile,
        circuits: [
          {
            wall: hostile,
            runs: [
              [
                { day: '2024-06-11', value: 42 },
                { day: '2024-07-11', value: 30 },
              ],
              [{ day: '2024-09-11', value: 12.5 }],
            ],
          },
          { wall: 'W02', runs: [[{ day: '2024-06-11', value: 38 }]] },
        ],
      },
      { arm: 'unpowered', circuits: [] },
    ],
    marks: [{ day: '2024-06-10', label: hostile }],
  }),
  dryingChart: dryingChart({
    title: hostile,
    quantity: 'moisture content',
    unit: '% by mass',
    start: { day: '2024-06-04', label: hostile },
    arms: [
      {
        arm: hostile,
        walls: [
          [
            { day: '2024-06-01', value: 9.5 },
            { day: '2024-09-01', value: 7 },
          ],
        ],
        means: [
          { day: '2024-06-01', mean: 9.5 },
          { day: '2024-09-01', mean: 7, lower: 6.5, upper: 7.5 },
        ],
      },
    ],
    level: 0.95,
    weather: [{ day: '2024-06-03', pressure_pa: 700 }],
  }),
  wettingFrontChart: wettingFrontChart({
    title: hostile,
    arrivals: [
      { height_mm: 100, time_d: 4, lower_d: 3.5, upper_d: 4.5 },
      { height_mm: 200, time_d: 5.5, lower_d: 5, upper_d: 6 },
      { height_mm: 300, time_d: 7, lower_d: 6.5, upper_d: 7.5 },
    ],
    start_d: 3.8,
    speed: 4.5,
    level: 0.95,
  }),
  heightProfileChart: heightProfileChart({
    title: hostile,
    before: { stations: [{ height_mm: 300, value: 9 }], means: [{ height_mm: 300, value: 9 }] },
    after: { stations: [{ height_mm: 300, value: 6.5 }], means: [{ height_mm: 300, value: 6.5 }] },
    walls: 12,
    stations: 36,
    quantity: 'moisture content',
    unit: '% by mass',
    decimals: 2,
    style: 1,
  }),
  seriesChart: seriesChart({
    title: hostile,
    quantity: 'moisture content',
    unit: '% by mass',
    treated: hostile,
    untreated: 'W02',
    before: { visits: [{ day: '2024-01-01', difference: -0.7 }], mean: -0.5, lower: -1, upper: 0 },
    after: { visits: [{ day: '2024-09-01', difference: -1.8 }], mean: -2, lower: -2.5, upper: -1.5 },
    marks: [{ day: '2024-05-01', label: hostile }],
    level: 0.95,
  }),
  sensorLogChart: sensorLogChart({
    title: hostile,
    quantity: 'moisture',
    unit: '% by mass',
    sensors: [
      {
        label: hostile,
        days: [
          { day: '2024-03-01', mean: 8.5 },
          { day: '2024-03-02', mean: 8.25 },
          { day: '2024-03-04', mean: 7 },
        ],
      },
      { label: 'S2 300 mm', days: [] },
    ],
    from: '2024-03-01',
    to: '2024-03-04',
  }),
  chancesChart: chancesChart({
    title: hostile,
    of: 'of finding an effect of 4 % by mass worthwhile',
    lines: [
      {
        label: hostile,
        points: [
          { walls: 12, chance: 0.41 },
          { walls: 24, chance: 0.83 },
        ],
      },
      {
        label: '3 stations',
        points: [
          { walls: 12, chance: 0.43 },
          { walls: 24, chance: 0.84 },
        ],
      },
    ],
    wanted: 0.8,
  }),
  timelineChart: timelineChart({
    title: 'Timeline',
    plannedOn: '2024-02-01',
    windows: [
      { label: 'before', from: '2024-03-01', to: '2024-03-02' },
      { label: 'after', from: '2024-03-03', to: '2025-05-31' },
    ],
    arms: [
      {
        label: hostile,
        style: 0,
        walls: [
          {
            ...{ wall: hostile, read: ['2024-04-16'], cored: ['2024-03-12'], missed: [], treatedOn: '2024-06-10' },
            windows: [{ from: '2024-03-01', to: '2024-03-02' }],
          },
        ],
      },
      {
        ...{ label: 'sham', style: 1 },
        walls: [{ wall: 'W02', read: [], cored: ['2024-03-12'], missed: ['2024-04-16'], windows: [] }],
      },
    ],
    events: [
      { day: '2024-06-10', label: hostile },
      { day: '2024-06-10', label: 'flood' },
    ],
  }),
  changesChart: changesChart({
    title: hostile,
    groups: [
      {
        ...{ style: 0, label: hostile, mean: -1.5, lower: -4, upper: 1, isTreated: true },
        walls: [
          { wall: hostile, change: -2.75, before: 9.25, after: 6.5 },
          { wall: 'W03', change: -0.25, before: 8, after: 7.75 },
        ],
      },
      {
        ...{ style: 1, label: 'sham', mean: 0.125, isTreated: false },
        walls: [{ wall: 'W02', change: 0.125, before: 8, after: 8.125 }],
      },
    ],
    margin: { at: -1.875, margin: 2 },
    quantity: 'moisture content',
    unit: '% by mass',
    decimals: 2,
    level: 0.95,
  }),
  confidenceCurveChart: confidenceCurveChart({
    title: hostile,
    points: [
      { value: -3.4, pValue: 0.05 },
      { value: -2.6, pValue: 1 },
      { value: -1.8, pValue: 0.05 },
    ],
    estimate: -2.6,
    intervals: [
      { level: 0.5, lower: -2.85, upper: -2.35 },
      { level: 0.95, lower: -3.4, upper: -1.8 },
    ],
    unit: '% by mass',
    better: 'lower',
    margin: 2,
    walls: { treated: 12, untreated: 11 },
    decimals: 2,
  }),
  elevationChart: elevationChart({
    title: hostile,
    walls: [
      {
        ...{ wall: hostile, arm: hostile, style: 0, change: -2 },
        places: [
          { position_mm: 400, height_mm: 200, before: 9.25, after: 6.5 },
          { position_mm: 1400, height_mm: 900, before: 4, after: 4.75 },
        ],
      },
    ],
    quantity: 'moisture content',
    unit: '% by mass',
    decimals: 2,
  }),
  wallMapChart: wallMapChart({
    title: hostile,
    cells: [
      { height_mm: 200, across_mm: 40, value: -1.25, n: 12 },
      { height_mm: 1100, across_mm: 40, value: 0.5, n: 9 },
    ],
    across: 'depth',
    shows: 'change',
    meansOver: '12 walls',
    quantity: 'moisture content',
    unit: '% by mass',
    decimals: 2,
  }),
};

describe.each(Object.entries(charts))('%s', (_, specification) => {
  it('is plain JSON', () => {
    expect(JSON.parse(JSON.stringify(specification))).toEqual(specification);
  });

  it('renders the same text twice in one process', async () => {
    expect(await renderSvg(specification)).toBe(await renderSvg(specification));
  });

  it('carries its description as the alternative text of one picture', async () => {
    const svg = await renderSvg(specification);
    expect(svg.match(/<svg /g)).toHaveLength(1);
    expect(svg).toMatch(/^<svg [^>]*role="img" aria-label="[^"]+"/);
    expect(svg).not.toContain('<script');
    expect(svg.match(/<\/svg>/g)).toHaveLength(1);
  });

  it('keeps its heading inside the picture', async () => {
    const { top } = specification.padding as { readonly top: number };
    const raised = [...(await renderSvg(specification)).matchAll(/translate\(0,(-[\d.]+)\)/g)].map(([, by]) =>
      Number(by),
    );
    expect(Math.min(0, ...raised)).toBeGreaterThanOrEqual(-top);
  });

  it('holds no number that is none', async () => {
    expect(await renderSvg(specification)).not.toMatch(/NaN|Infinity|undefined|\[object/);
  });
});

describe('what each chart names', () => {
  const expected: Record<string, readonly string[]> = {
    intervalChart: [
      '% by mass',
      '12 treated, 11 untreated',
      '−2.60 (−3.40 to −1.80)',
      'margin at −2',
      'no interval',
      'lower is better',
    ],
    agreementChart: [
      '% by mass',
      '2 pairs of 2 walls',
      '+0.50 (−0.25 to +1.25)',
      '90 % of single differences from −2.00',
    ],
    beforeAfterChart: ['% by mass', '1 wall', 'before 9.25', 'after 6.50', '1 fell, 0 rose', '0 fell, 1 rose'],
    calibrationChart: ['% by mass', '3 pairs of 3 walls', '31.5 (30.0 to 33.0) at 4.0', '47.5'],
    wettingFrontChart: ['3 sensors', '100 mm after 0.2 days, 300 mm after 3.2 days', '4.50 mm per root of a minute'],
    chancesChart: ['4 % by mass', 'asks for 80 %', '12 walls 41 %', '24 walls 84 %'],
    currentChart: [
      'in mA over time',
      '2 walls, 2 circuits, 38.0 to 42.0 at first, 12.5 to 38.0 at last, 1 interruption.',
      'unpowered: no current on record.',
    ],
    dryingChart: ['% by mass', '1 wall,', 'mean 9.5 on 2024-06-01, 7.0 on 2024-09-01', '95 % band', 'by week'],
    heightProfileChart: ['% by mass', '12 walls, 36 stations', '9.00 at 300 mm', '6.50 at 300 mm'],
    seriesChart: ['less that of W02 in % by mass', 'Before: 1 visit, level −0.5', '−2.0 (95 % interval −2.5 to −1.5)'],
    sensorLogChart: [
      'moisture in % by mass, 2 sensors',
      ': 8.5 on 2024-03-01, 7.0 on 2024-03-04, 1 day left out.',
      'S2 300 mm: no day',
    ],
    timelineChart: [
      'Window before from 2024-03-01 to 2024-03-02',
      '1 wall: read on 2 days, 2024-03-12 to 2024-04-16, cored on 1. 1 wall treated on 2024-06-10.',
      'sham, 1 wall: read on 1 day',
      'Missed visits: W02 on 2024-04-16.',
      'flood',
    ],
    changesChart: [
      'in % by mass',
      '2 walls from −2.75 to −0.25; mean −1.50, 95 % interval −4.00 to +1.00',
      'sham, 1 wall from +0.13 to +0.13; mean +0.13, no interval',
      'The margin of 2 from the untreated mean is at −1.88',
    ],
    confidenceCurveChart: [
      'in % by mass',
      'at the margin of −2; lower is better',
      '12 treated, 11 untreated',
      'highest at −2.60; 50 % interval from −2.85 to −2.35; 95 % interval from −3.40 to −1.80',
    ],
    elevationChart: [
      'in % by mass',
      'change −2.00): position 400 mm, height 200 mm: 9.25, then 6.50; position 1400 mm, height 900 mm: 4.00, then 4.75',
    ],
    wallMapChart: [
      '% by mass',
      '12 walls',
      'height 200 mm, depth 40 mm: −1.25 (n = 12)',
      'height 1100 mm, depth 40 mm: +0.50 (n = 9)',
    ],
  };
  it.each(Object.entries(expected))('%s describes its unit, its counts and its numbers', (name, words) => {
    for (const word of words) expect(charts[name]?.description).toContain(word);
  });

  it.each(Object.entries(charts))('%s says in its subtitle what its marks are', (_, specification) => {
    const { subtitle } = specification.title as { subtitle: string[] };
    expect(subtitle.join(' ')).toMatch(/Points?: |Hollow: |Small: |Thin: |Grey: |Curve: |Ring: |Filled: |Blue, /);
  });
});

describe('confidenceCurveChart(data)', () => {
  const placesOf = (margin: number | undefined, width: number) => {
    const points = [-3.4, -2.6, -1.8].map((value, at) => ({ value, pValue: at === 1 ? 1 : 0.05 }));
    const intervals = [0.5, 0.95].map((level) => ({ level, lower: -2.6 - 0.842 * level, upper: -2.6 + 0.842 * level }));
    const chart = confidenceCurveChart(
      {
        ...{ title: 'Curve', points, estimate: -2.6, intervals, unit: '%', better: 'lower', decimals: 1 },
        ...{ walls: { treated: 3, untreated: 3 }, ...(margin === undefined ? {} : { margin }) },
      },
      { width },
    );
    const layers = chart.layer as readonly {
      readonly data: { readonly values: readonly { text?: string; y: number }[] };
    }[];
    const words = layers
      .flatMap(({ data }) => data.values)
      .filter(({ text }) => text?.startsWith('50 %') || text?.startsWith('95 %'));
    return words.map(({ y }) => y);
  };

  it('puts the numbers of each interval beside it where there is room, else all in the corner', () => {
    const [half = 0, most = 0] = placesOf(2, 640);
    expect(most - half).toBeCloseTo(0.45 * 190, 6);
    const [first = 0, second = 0] = placesOf(3, 200);
    expect(second - first).toBe(14);
  });
});

describe('changesChart(data)', () => {
  const group = { style: 0, label: 'device', mean: -1, isTreated: true };
  const common = { title: 'Changes', quantity: 'moisture', unit: '%', decimals: 1, level: 0.95 };
  const wall = { wall: 'W01', change: -1, after: 6 };

  it('prints before and after beside the walls where it is wide enough, and no zero line where none was read before', async () => {
    const read = { ...common, groups: [{ ...group, walls: [{ ...wall, before: 7 }] }] };
    expect(await renderSvg(changesChart(read))).toContain('7.0 → 6.0');
    expect(await renderSvg(changesChart(read, { width: 340 }))).not.toContain('7.0 → 6.0');
    expect(await renderSvg(changesChart(read))).toContain('0: no change');
    const afterAlone = { ...common, groups: [{ ...group, walls: [wall] }] };
    const svg = await renderSvg(changesChart(afterAlone));
    expect(svg).not.toContain('0: no change');
    expect(svg).not.toContain('before → after');
  });

  it('draws the margin through the treated rows alone', () => {
    const margin = { at: -2, margin: 2 };
    const both = [
      { ...group, walls: [{ ...wall, before: 7 }] },
      { ...group, isTreated: false, style: 1, label: 'sham', walls: [{ ...wall, before: 7 }] },
    ];
    const dashed = (groups: typeof both) =>
      (
        changesChart({ ...common, groups, margin }).layer as readonly {
          data: { values: { strokeDash?: readonly number[]; y2: number }[] };
        }[]
      )
        .flatMap(({ data }) => data.values)
        .filter(({ strokeDash = [] }) => strokeDash.length > 0)
        .map(({ y2 }) => y2);
    expect(dashed(both)).toHaveLength(1);
    expect(dashed(both)).toEqual(dashed(both.slice(0, 1)));
    expect(dashed(both.slice(1))).toEqual([]);
  });
});

describe('timelineChart(data)', () => {
  const days = { read: [], cored: ['2024-03-12'], missed: [], windows: [] };
  const labelsOf = async (walls: number, odd: boolean) => {
    const arm = Array.from({ length: walls }, (_, at) => ({
      ...{ ...days, wall: `W${at}` },
      ...(odd && at === 3 ? { cored: ['2024-03-15'] } : {}),
    }));
    const svg = await renderSvg(
      timelineChart({ title: 'T', windows: [], events: [], arms: [{ label: 'device', style: 0, walls: arm }] }),
    );
    return [...svg.matchAll(/>(W\d+(?: \+\d+)?)<\/text>/g)].map(([, label]) => label);
  };

  it('has a row for each of 40 walls; of 41 those visited alike share one', async () => {
    expect(await labelsOf(40, false)).toHaveLength(40);
    expect(await labelsOf(41, false)).toEqual(['W0 +40']);
    expect(await labelsOf(41, true)).toEqual(['W0 +39', 'W3']);
  });
});

describe('elevationChart(data)', () => {
  const place = { position_mm: 0, height_mm: 200, before: 8, after: 2 };
  const sizes = (places: readonly (typeof place)[]) => {
    const wall = { wall: 'W01', arm: 'device', style: 0, change: -6, places };
    const chart = elevationChart({ title: 'E', walls: [wall], quantity: 'moisture', unit: '%', decimals: 1 });
    const layers = chart.layer as readonly { data: { values: { size?: number; before?: number; after?: number }[] } }[];
    return layers.flatMap(({ data }) => data.values).filter(({ size }) => size !== undefined);
  };

  it('gives areas in proportion to amounts, one scale for before and after', () => {
    const all = sizes([place, { ...place, position_mm: 1000, height_mm: 900, before: 4, after: 4 }]);
    const largest = Math.max(...all.map(({ size = 0 }) => size));
    for (const { size = 0, before, after } of all) expect(size / largest).toBeCloseTo((before ?? after ?? 0) / 8, 10);
  });

  it('draws smaller where places are close, so that symbols of neighbours do not meet', () => {
    const near = sizes([place, { ...place, position_mm: 1000 }, { ...place, position_mm: 1050 }]);
    const far = sizes([place, { ...place, position_mm: 1000 }]);
    expect(Math.max(...near.map(({ size = 0 }) => size))).toBeLessThan(Math.max(...far.map(({ size = 0 }) => size)));
  });
});

describe('heightProfileChart(data)', () => {
  it('sets thousands apart as the words beside it do', async () => {
    const none = { stations: [], means: [] };
    const svg = await renderSvg(
      heightProfileChart({
        ...{ title: 'device', before: none, after: none, walls: 1, stations: 1, decimals: 0, style: 0 },
        ...{
          quantity: 'index',
          unit: 'Ω',
          valueDomain: { from: 9000, to: 12_000 },
          heightDomain: { from: 0, to: 1500 },
        },
      }),
    );
    expect(svg).toContain('>9000<');
    expect(svg).toContain('>12\u202f000<');
    expect(svg).toContain('>1000<');
    expect(svg).not.toMatch(/>\d+,\d{3}</);
  });

  it.each([
    [0.0892, 14.523],
    [2.2, 14.8],
    [0.4, 3.1],
    [11, 46],
    [0, 9.9],
    [998, 1004],
  ])('has two or more numbers on its scale from %s to %s, narrow as it is', async (from, to) => {
    const none = { stations: [], means: [] };
    const chart = heightProfileChart({
      ...{ title: 'device', before: none, after: none, walls: 12, stations: 72, decimals: 2, style: 0 },
      ...{
        quantity: 'moisture content',
        unit: '% by mass',
        valueDomain: { from, to },
        heightDomain: { from: 200, to: 900 },
      },
    });
    const labels = [...(await renderSvg(chart)).matchAll(/>([\d,.]+)<\/text>/g)].map((match) =>
      Number(match[1]?.replace(',', '')),
    );
    expect(labels.filter((label) => label >= from && label <= to).length).toBeGreaterThanOrEqual(2);
  });
});

describe('heightProfileChart', () => {
  it('counts one wall and one station in the singular, and speaks of means only where there are some', () => {
    const of = (means: readonly { readonly height_mm: number; readonly value: number }[]) =>
      heightProfileChart({
        title: 'slot',
        before: { stations: [{ height_mm: 300, value: 9 }], means },
        after: { stations: [{ height_mm: 300, value: 6 }], means },
        walls: 1,
        stations: 1,
        quantity: 'moisture content',
        unit: '% by mass',
        decimals: 1,
        style: 0,
      });
    const subtitle = (chart: ChartSpecification) => (chart.title as { subtitle: string[] }).subtitle.join(' ');
    const one = of([{ height_mm: 300, value: 9 }]);
    expect(subtitle(one)).toMatch(/^1 wall, 1 station\. .*Large: means/);
    expect(one.description).toContain('1 wall, 1 station.');
    expect(subtitle(of([]))).not.toContain('means');
    expect(of([]).description).toContain('before: 1 station, no means');
  });
});

describe('dryingChart(data)', () => {
  const arm = (band: object) => ({
    arm: 'device',
    walls: [[{ day: '2024-06-01', value: 9.5 }]],
    means: [{ day: '2024-06-01', mean: 9.5, ...band }],
  });
  const words = (band: object) => {
    const chart = dryingChart({
      ...{ title: 't', quantity: 'q', unit: 'u', level: 0.95, arms: [arm(band)] },
      start: { day: '2024-06-04', label: 'start' },
    });
    return `${(chart.title as { subtitle: string[] }).subtitle.join(' ')} ${chart.description}`;
  };

  it('announces bands only where an arm has some', () => {
    expect(words({ lower: 9, upper: 10 })).toMatch(/Bands: 95\u00a0% intervals .*with its 95 % band/);
    expect(words({})).not.toMatch(/[Bb]and/);
  });
});

describe('currentChart(data)', () => {
  const valuesOf = (chart: ChartSpecification | undefined, type: string) =>
    (
      (chart?.layer ?? []) as readonly {
        readonly mark: { readonly type: string };
        readonly data: { readonly values: readonly { readonly key?: number; readonly y?: number }[] };
      }[]
    ).flatMap(({ mark, data }) => (mark.type === type ? data.values : []));
  const of = (count: number) =>
    currentChart({
      ...{ title: 't', unit: 'mA', marks: [] },
      arms: [
        {
          arm: 'powered',
          circuits: Array.from({ length: count }, (_, k) => ({
            wall: `W${k}`,
            runs: [
              [
                { day: '2024-06-11', value: 4 },
                { day: '2024-06-12', value: 3 },
              ],
              [{ day: '2024-06-20', value: 3 }],
            ],
          })),
        },
      ],
    });

  it('breaks the line where a circuit was off', () => {
    const keys = valuesOf(charts.currentChart, 'line').map(({ key }) => key);
    expect(keys).toEqual([0, 0, 1, 2]);
  });

  it('leaves out points of many readings, but for those that no line joins', () => {
    // Three points a circuit; the axes carry one that is not drawn.
    expect(valuesOf(of(166), 'point')).toHaveLength(1 + 498);
    expect(valuesOf(of(167), 'point')).toHaveLength(1 + 167);
  });

  it('begins at zero, draws a current of nothing, and refuses days that are none', async () => {
    const run = (day: string) =>
      currentChart({
        ...{ title: 't', unit: 'mA', marks: [] },
        arms: [{ arm: 'a', circuits: [{ wall: 'W', runs: [[{ day, value: 0 }]] }] }],
      });
    expect(valuesOf(run('2024-06-11'), 'line')[0]?.y).toBe(220);
    expect(await renderSvg(run('2024-06-11'))).not.toContain('NaN');
    expect(() => run('Tuesday')).toThrow(/current chart needs ISO days, got Tuesday/);
    expect(() => currentChart({ title: 't', unit: 'mA', marks: [], arms: [] })).toThrow(/at least one day/);
  });
});

describe('choicesChart(data)', () => {
  const nameAt = (margin: number) => {
    const chart = choicesChart({
      ...{ title: 't', unit: '% by mass', better: 'lower', level: 0.95, decimals: 1, margin },
      rows: [{ label: 'As planned', estimate: -2, lower: -9, upper: 3, isPrimary: true }],
      walls: { treated: 1, untreated: 1 },
    });
    const layers = chart.layer as readonly {
      readonly data: { readonly values: readonly { readonly text?: string; readonly align?: string }[] };
    }[];
    return layers.flatMap(({ data }) => data.values).find(({ text }) => text?.startsWith('margin'))?.align;
  };

  it('puts the name of the margin over its line, and beside it where it would run into the zero', () => {
    expect(nameAt(6)).toBe('center');
    expect(nameAt(0.5)).toBe('right');
  });
});

describe('sensorLogChart(data)', () => {
  const layersOf = (chart: ChartSpecification | undefined) =>
    (chart?.layer ?? []) as readonly {
      readonly mark: { readonly type: string };
      readonly data: { readonly values: readonly object[] };
    }[];
  const valuesOf = (chart: ChartSpecification | undefined, type: string) =>
    layersOf(chart).flatMap(({ mark, data }) => (mark.type === type ? data.values : []));

  it('marks every day left out in its own strip, and breaks the line there', () => {
    expect(valuesOf(charts.sensorLogChart, 'rect')).toHaveLength(1 + 4);
    const keys = valuesOf(charts.sensorLogChart, 'line').map((value) => (value as { key: string }).key);
    expect([keys.length, new Set(keys).size]).toEqual([3, 2]);
  });

  it('puts days of a long log together, and still marks a day left out', () => {
    const days = Array.from({ length: 3_000 }, (_, day) => ({
      day: addDays('2015-01-01', day),
      mean: day % 7,
    }));
    const [from, to] = [days[0]!.day, days.at(-1)!.day];
    const whole = { title: 't', quantity: 'q', unit: 'u', sensors: [{ label: 'S', days }], from, to };
    expect(valuesOf(sensorLogChart(whole), 'line')).toHaveLength(300);
    expect(valuesOf(sensorLogChart(whole), 'rect')).toEqual([]);
    const holed = { ...whole, sensors: [{ label: 'S', days: days.toSpliced(1500, 1) }] };
    expect(valuesOf(sensorLogChart(holed), 'rect')).toHaveLength(1);
  });

  it('refuses days that are none', () => {
    const sensors = [{ label: 'S', days: [{ day: 'Tuesday', mean: 1 }] }];
    const chart = () =>
      sensorLogChart({ title: 't', quantity: 'q', unit: 'u', sensors, from: '2024-01-01', to: '2024-01-02' });
    expect(chart).toThrow(/needs ISO days, got Tuesday/);
  });
});

describe('renderSvg(specification)', () => {
  const clipped = (mark: string): ChartSpecification => ({
    description: 'Points inside a frame',
    data: { values: [{ x: 1 }, { x: 2 }] },
    mark: { type: mark, clip: true },
    encoding: { x: { field: 'x', type: 'quantitative' } },
  });

  it('gives ids that differ between charts and are all referred to', async () => {
    const [points, ticks] = [await renderSvg(clipped('point')), await renderSvg(clipped('tick'))];
    const ids = (svg: string) => [...svg.matchAll(/ id="([^"]+)"/g)].map((match) => match[1] ?? '');
    expect(ids(points).length).toBeGreaterThan(0);
    expect(ids(points).filter((id) => ids(ticks).includes(id))).toEqual([]);
    for (const id of ids(points)) expect(points).toContain(`url(#${id})`);
    expect(await renderSvg(clipped('point'))).toBe(points);
  });

  it('leaves words alone that look like attributes', async () => {
    const words = 'a id="x" role="graphics-symbol" class="y" url(#x)';
    const specification = {
      ...clipped('text'),
      data: { values: [{ x: 1, words }] },
      encoding: { x: { field: 'x', type: 'quantitative' }, text: { field: 'words', type: 'nominal' } },
    };
    expect(await renderSvg(specification)).toContain(`>${words}<`);
  });

  it('refuses a specification without a description', async () => {
    await expect(renderSvg({ ...clipped('point'), description: '' })).rejects.toThrow(/description/);
  });

  it('refuses what is no Vega-Lite specification', async () => {
    await expect(renderSvg({ description: 'nothing', data: { values: [] } })).rejects.toThrow(/specification/i);
  });
});

describe('the theme', () => {
  /** Relative luminance of WCAG 2. */
  function luminance(colour: string): number {
    const [red, green, blue] = [1, 3, 5].map((at) => {
      const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * (red ?? 0) + 0.7152 * (green ?? 0) + 0.0722 * (blue ?? 0);
  }

  it('tells groups apart by shape and dash, and the first two by lightness as well', () => {
    const styles = [0, 1, 2, 3].map(groupStyle);
    expect(new Set(styles.map((style) => style.shape)).size).toBe(4);
    expect(new Set(styles.map((style) => style.dash.join())).size).toBe(4);
    const [dark, light] = styles.map((style) => luminance(style.colour));
    expect(((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05)).toBeGreaterThan(2.5);
  });

  it('draws no mark paler than 3:1 against paper', () => {
    for (const index of [0, 1, 2, 3]) expect(1.05 / (luminance(groupStyle(index).colour) + 0.05)).toBeGreaterThan(3);
  });
});

describe('fills of maps', () => {
  const lightness = (colour: string): number => {
    const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
    return 0.299 * red + 0.587 * green + 0.114 * blue;
  };
  const shares = Array.from({ length: 21 }, (_, step) => step / 20);

  it('amountColour grows darker all the way, so that it reads in grey', () => {
    const grey = shares.map((share) => lightness(amountColour(share)));
    for (const [at, each] of grey.slice(1).entries()) expect(each).toBeLessThan(grey[at] ?? 0);
  });

  it('changeColour is paper at zero and darkens to both sides, further to the rise', () => {
    expect(changeColour(0)).toBe('#ffffff');
    for (const sign of [-1, 1]) {
      const grey = shares.map((share) => lightness(changeColour(sign * share)));
      for (const [at, each] of grey.slice(1).entries()) expect(each).toBeLessThan(grey[at] ?? 0);
    }
    expect(lightness(changeColour(1))).toBeLessThan(lightness(changeColour(-1)) - 50);
  });

  it('inkOn(fill) stands out by at least 3:1 on every fill', () => {
    const part = (value: number) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
    const luminance = (colour: string) => {
      const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) =>
        part(Number.parseInt(colour.slice(at, at + 2), 16) / 255),
      );
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const fills = shares.flatMap((share) => [amountColour(share), changeColour(2 * share - 1)]);
    for (const fill of fills) {
      const [light, dark] = [luminance(fill), luminance(inkOn(fill))].sort((one, other) => other - one);
      expect(((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05)).toBeGreaterThan(3);
    }
  });
});

describe('loading', () => {
  it('no source file imports vega or vega-lite statically', () => {
    const source = join(import.meta.dirname, '..', '..', 'src');
    const files = readdirSync(source, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts'));
    const offenders = files.filter((file) =>
      /^(?!import type).*(?:from|^import) '(?:vega|vega-lite)'/m.test(readFileSync(join(source, file), 'utf8')),
    );
    expect(files.length).toBeGreaterThan(10);
    expect(offenders).toEqual([]);
  });
});
