import {
  armMeans,
  type Estimate,
  type Primary,
  type StationChange,
  type WallChange,
} from '../../src/analysis/index.js';
import { changesOfArms } from '../../src/findings/answer/changes-of-arms.js';
import { heightsOfArms } from '../../src/findings/heights/heights-of-arms.js';
import { agreementOfAnalyses } from '../../src/opinion/agreement-of-analyses.js';
import type { Opinion, Weakness } from '../../src/opinion/opinion.js';
import type { Threat } from '../../src/opinion/threats/threat.js';
import type { Protocol } from '../../src/trial/index.js';

/** Opinions written by hand, so that the report is tested apart from the statistics. The numbers only need to be plausible. */

const protocol: Protocol = {
  title: 'Twelve pairs of garden walls',
  claim: 'The device lowers wall moisture by a worthwhile amount within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'treated', role: 'treated' },
    { arm: 'control', role: 'control' },
  ],
  instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }],
  windows: { before: { from: '2024-03-01', to: '2024-05-31' }, after: { from: '2025-03-01', to: '2025-05-31' } },
  allocation: { method: 'matched-pairs', seed: 20240201, by: 'a person outside the trial' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'the owners of the walls', interests: '' },
  plannedOn: '2024-02-01',
};

/** A smooth wobble instead of random numbers. */
function wobble(index: number): number {
  return Math.sin(index * 2.399) + 0.5 * Math.cos(index * 5.1);
}

function wall(index: number, arm: string, side: WallChange['side'], drop: number): WallChange {
  const before = 9 + 1.8 * wobble(index + (side === 'treated' ? 0 : 40));
  const change = -drop + 0.4 * wobble(index + 80 + (side === 'treated' ? 0 : 40));
  const name = `${side === 'treated' ? 'T' : 'C'}${String(index + 1).padStart(2, '0')}`;
  return {
    wall: name,
    arm,
    side,
    block: `pair ${index + 1}`,
    before,
    after: before + change,
    change,
    stations: 3,
    places: 'same',
  };
}

function stationsOf(walls: readonly WallChange[]): StationChange[] {
  return walls.flatMap(({ wall: name, before = Number.NaN, after }) =>
    [300, 800, 1300].map((height_mm, level) => ({
      wall: name,
      station: `${name}-${level + 1}`,
      height_mm,
      depth_mm: 80,
      before: before + 2 - 2 * level,
      after: after + 1.6 - 1.6 * level,
    })),
  );
}

/** Three walls of each arm, with places a metre apart. */
function elevated(walls: readonly WallChange[]): NonNullable<Opinion['elevation']>['walls'] {
  return [...new Set(walls.map(({ arm }) => arm))].flatMap((arm) =>
    walls
      .filter((each) => each.arm === arm)
      .slice(0, 3)
      .map(({ wall: name, before = 0, after, change }) => ({
        ...{ wall: name, arm, change },
        places: [150, 1150, 2150, 3150].flatMap((position_mm, column) =>
          [300, 800, 1300].map((height_mm, level) => ({
            ...{ position_mm, height_mm },
            before: before + 2 - 2 * level + 0.3 * column,
            after: after + 1.6 - 1.6 * level,
          })),
        ),
      })),
  );
}

/** All walls cored on all days, but for one wall that missed the second of them. */
function calendarOf(walls: readonly WallChange[], days: readonly string[]): Opinion['timeline']['calendar'] {
  const [, second] = days;
  return [...new Set(walls.map(({ arm }) => arm))].map((arm) => ({
    arm,
    walls: walls
      .filter((each) => each.arm === arm)
      .map(({ wall: name, side }, at) => ({
        wall: name,
        read: [],
        cored: at === 2 ? days.filter((day) => day !== second) : days,
        missed: at === 2 && second !== undefined ? [second] : [],
        ...(side === 'treated' ? { treatedOn: at < 6 ? '2024-06-10' : '2024-06-11' } : {}),
        windows: [
          { from: '2024-03-01', to: '2024-05-31' },
          { from: '2025-03-01', to: '2025-05-31' },
        ],
      })),
  }));
}

const range = (count: number) => Array.from({ length: count }, (_, index) => index);

const pairedWalls = [
  ...range(12).map((index) => wall(index, 'treated', 'treated', 3.1)),
  ...range(12).map((index) => wall(index, 'control', 'untreated', 0.4)),
];

const compared = { units: 'wall', value: 'change' } as const;

const primaryEstimate: Extract<Primary, { kind: 'estimated' }>['estimate'] = {
  id: 'wall-change',
  unit: '% by mass',
  estimate: -2.7134,
  interval: { level: 0.95, lower: -3.0917, upper: -2.3351 },
  standardError: 0.1719,
  degreesOfFreedom: 11,
  pValue: 0.000000012,
  method: { kind: 'paired-blocks', compared },
  walls: { treated: 12, untreated: 12 },
};

const adjusted: Estimate = {
  ...primaryEstimate,
  id: 'baseline-adjusted',
  estimate: -2.6811,
  interval: { level: 0.95, lower: -3.1402, upper: -2.222 },
  degreesOfFreedom: 10,
  pValue: 0.00000021,
  method: { kind: 'baseline-adjusted', compared, isBlocked: true },
};

const randomisation: Estimate = {
  id: 'randomisation',
  unit: '% by mass',
  estimate: -2.7134,
  pValue: 0.00048,
  method: {
    ...{ kind: 'randomisation', compared, allocation: 'matched-pairs', isExact: false },
    ...{ allocations: 99_999, smallestP: 0.00048 },
  },
  walls: { treated: 12, untreated: 12 },
  monteCarlo: { seed: 1, draws: 99_999, pValueStandardError: 0.00007 },
};

const hedges: Estimate = {
  ...primaryEstimate,
  id: 'hedges-g',
  unit: 'standard deviations of changes',
  estimate: -5.21,
  interval: { level: 0.95, lower: -6.93, upper: -3.47 },
  method: { kind: 'hedges-g', compared },
};

/** A threat that weighs as a weakness does, for opinions that are written by hand. */
function threatOf({ code, seriousness, text, remedy }: Weakness): Threat {
  return {
    ...{ code, seriousness, text, remedy, domain: 'measurement', name: `Threat ${code}` },
    ...{ lookedFor: `${code} was found`, finding: 'found', direction: 'either way', restsOn: [] },
    decidedBy: [],
    tippingIs: 'bias' as const,
    tipping: 'No bias would change the verdict.',
  };
}

const notRandomised: Threat = {
  ...{ code: 'not-randomised', domain: 'allocation', name: 'Treated walls chosen, not randomised' },
  ...{ lookedFor: 'the treated walls were chosen by somebody', finding: 'not-found', direction: 'either way' },
  text: 'The plan says that walls were allocated at random inside matched pairs.',
  decidedBy: [],
  tippingIs: 'bias' as const,
  tipping: 'With a bias of 0.335 percentage points towards the claim, the verdict would be “some effect”.',
  ...{ tippingPoint: 0.335, restsOn: ['allocation'], remedy: 'Randomise inside pairs.' },
};

const shamless: readonly Weakness[] = [
  {
    code: 'no-sham',
    seriousness: 'minor',
    text: 'No wall carried a sham device, so occupants could tell the treated walls from the others.',
    remedy: 'Give the untreated walls a device that looks and sounds the same and does nothing.',
  },
];

/** With what follows from its walls, stations and analyses. */
function derived(opinion: Omit<Opinion, 'agreement' | 'arms' | 'changes' | 'heights'>): Opinion {
  return {
    ...opinion,
    agreement: agreementOfAnalyses(opinion.protocol, opinion.primary, opinion.analyses),
    arms: armMeans(opinion),
    changes: changesOfArms(opinion),
    heights: heightsOfArms(opinion, opinion.stations),
  };
}

/** 12 + 12 walls in pairs, beyond the margin, with one minor weakness. */
export const worthwhile: Opinion = derived({
  protocol,
  marginOrigin: { kind: 'stated' },
  fingerprint: '3f1c9a2be07d4c5586f0a1b2c3d4e5f60718293a4b5c6d7e8f90a1b2c3d4e5f6',
  files: [
    { file: 'protocol.json', rows: 1 },
    { file: 'walls.csv', rows: 24, separator: 'comma', decimal: 'point' },
    { file: 'cores.csv', rows: 432, separator: 'semicolon', decimal: 'comma' },
    { file: 'stations.csv', rows: 72, separator: 'comma' },
  ],
  version: '0.1.0',
  seed: 20_240_201,
  verdict: {
    code: 'worthwhile',
    sentence:
      'In this trial the treatment made a worthwhile difference. Against the untreated walls the moisture content of the treated walls fell by 2.71 % by mass (95 % interval 2.34 to 3.09, all of it beyond the 2.00 % by mass that the plan calls worthwhile).',
    evidence: 'firm',
    weaknesses: shamless,
  },
  threats: [notRandomised, ...shamless.map(threatOf)],
  primary: { kind: 'estimated', method: 'paired-blocks', estimate: primaryEstimate },
  analyses: [
    { kind: 'estimated', estimate: adjusted },
    { kind: 'estimated', estimate: randomisation },
  ],
  effectSizes: [
    { kind: 'estimated', estimate: hedges },
    {
      kind: 'not-estimated',
      notEstimated: { id: 'log-response-ratio', reason: { code: 'ratio-needs-positive-means' } },
    },
  ],
  walls: pairedWalls,
  stations: stationsOf(pairedWalls),
  units: { kind: 'wall', isStated: false, members: new Map() },
  elevation: { walls: elevated(pairedWalls), of: 24 },
  leftOutWalls: [],
  leftOutReadings: [
    {
      reason: { code: 'outside' },
      count: 5,
      origins: [12, 13, 14, 15, 18].map((row) => ({ file: 'cores.csv', row })),
    },
  ],
  measurement: {
    used: 427,
    typical: { uncertainty: 0.0121, source: { from: 'resolution', resolution_g: 0.01 } },
  },
  instruments: [
    {
      instrument: 'core',
      kind: 'gravimetric',
      isOutcome: true,
      unit: '% by mass',
      use: {
        readings: 432,
        belowDetection: 0,
        missing: 5,
        walls: 24,
        stations: 72,
        days: 6,
        first: '2024-03-12',
        last: '2025-05-20',
      },
      calibrations: [],
      answers: [
        {
          scale: 'as-read',
          unit: '% by mass',
          result: {
            kind: 'computed',
            value: {
              estimate: -2.7134,
              interval: { level: 0.95, lower: -3.0917, upper: -2.3351 },
              walls: { treated: 12, untreated: 12 },
              code: 'worthwhile',
            },
          },
        },
      ],
    },
  ],
  confidenceCurve: {
    estimate: -2.7134,
    points: [
      { value: -3.0917, pValue: 0.05 },
      { value: -2.8333, pValue: 0.5 },
      { value: -2.7134, pValue: 1 },
      { value: -2.5935, pValue: 0.5 },
      { value: -2.3351, pValue: 0.05 },
    ],
    intervals: [
      { level: 0.5, lower: -2.8333, upper: -2.5935 },
      { level: 0.95, lower: -3.0917, upper: -2.3351 },
    ],
  },
  timeline: {
    calendar: calendarOf(pairedWalls, [
      '2024-03-12',
      '2024-04-16',
      '2024-05-21',
      '2025-03-11',
      '2025-04-15',
      '2025-05-20',
    ]),
    readingDays: [
      { day: '2024-03-12', readings: 72 },
      { day: '2024-04-16', readings: 72 },
      { day: '2024-05-21', readings: 72 },
      { day: '2025-03-11', readings: 72 },
      { day: '2025-04-15', readings: 72 },
      { day: '2025-05-20', readings: 67 },
    ],
    treatedDays: [
      { day: '2024-06-10', walls: 6 },
      { day: '2024-06-11', walls: 6 },
    ],
    events: [
      { day: '2024-06-10', kind: 'installed', walls: 'all walls', note: 'devices hung, six a day' },
      { day: '2024-11-03', kind: 'heating', walls: 'all walls', note: 'heating season begins' },
    ],
  },
});

const { margin: _, plannedOn: __, windows: ___, ...bareProtocol } = protocol;

const untreatedNone: readonly Weakness[] = [
  {
    code: 'no-untreated-walls',
    seriousness: 'fatal',
    text: 'All 8 walls in the comparison were treated and none was left untreated, so drying by season, heating or time cannot be distinguished from drying by treatment.',
    remedy: 'Leave some of the walls untreated, chosen at random, and read them in the same way and on the same days.',
  },
];

/** Neither a curve nor walls in elevation. */
const { confidenceCurve: ____, elevation: _____, ...answered } = worthwhile;

/** Treated walls only: a fine-looking fall that says nothing. */
export const notAnswerable: Opinion = derived({
  ...answered,
  protocol: {
    ...bareProtocol,
    title: 'Eight cellar walls, before and after',
    windows: { before: { from: '2024-04-01', to: '2024-06-30' }, after: { from: '2025-04-01', to: '2025-06-30' } },
    arms: [{ arm: 'treated', role: 'treated' }],
    allocation: { method: 'chosen', by: '' },
    blinding: { readers: false, occupants: false, analyst: false },
    disclosures: { funding: '', interests: '' },
  },
  verdict: {
    code: 'not-answerable',
    sentence:
      'This trial cannot say whether the treatment works. All 8 walls in the comparison were treated and none was left untreated, so drying by season, heating or time cannot be distinguished from drying by treatment. The moisture content: that of the 8 treated walls fell by 3.10 % by mass on average; no interval can be put on a difference.',
    evidence: 'none',
    weaknesses: untreatedNone,
  },
  threats: untreatedNone.map(threatOf),
  primary: {
    kind: 'not-estimated',
    reason: { code: 'empty-side', compared, counts: { treated: 8, untreated: 0 } },
    walls: { treated: 8, untreated: 0 },
  },
  analyses: [
    {
      kind: 'not-estimated',
      notEstimated: { id: 'randomisation', reason: { code: 'no-other-allocation', units: 'wall' } },
    },
  ],
  effectSizes: [],
  walls: pairedWalls.slice(0, 8).map((each) => ({ ...each, block: '' })),
  stations: stationsOf(pairedWalls.slice(0, 8)).map(({ wall: name, station, before, after }) => ({
    wall: name,
    station,
    ...(before === undefined ? {} : { before }),
    ...(after === undefined ? {} : { after }),
  })),
  leftOutWalls: [],
  leftOutReadings: [],
  measurement: {
    used: 96,
  },
  timeline: {
    calendar: calendarOf(pairedWalls.slice(0, 8), ['2024-03-12', '2025-03-11']),
    readingDays: [
      { day: '2024-03-12', readings: 48 },
      { day: '2025-03-11', readings: 48 },
    ],
    treatedDays: [],
    events: [],
  },
});

/** Names and notes that try to act, to hide or to run over the edge. */
export const hostileNames = [
  '<script>alert(1)</script>',
  '</svg><img src=x onerror=alert(1)>',
  'pipe | back`tick` *star* _under_ [link](http://example.org)',
  'right-to-left \u202eoverride\u202c and \u0007bell',
  'line\nbreak\tand tab',
  '"quotes" & \'apostrophes\' &amp; entities',
  'Северная стена, קיר צפוני, الجدار الشمالي, 北の壁',
  `A very long name ${'of a wall that does not want to end '.repeat(6)}`,
  `${'Unbroken'.repeat(24)}`,
  '# heading',
  '- item',
  '1. numbered',
  '--- | ---',
  '{{template}} %s',
];

const weaknessWords: readonly [Weakness['seriousness'], string][] = [
  ['serious', 'readers-knew'],
  ['serious', 'windows-in-different-months'],
  ['serious', 'walls-left-out'],
  ['serious', 'before-values-unlike'],
  ['minor', 'no-sham'],
  ['minor', 'readers-changed'],
  ['minor', 'plan-undated'],
  ['minor', 'interests-not-stated'],
];

const hostileWalls = [
  ...range(30).map((index) => wall(index, hostileNames[0] ?? '', 'treated', 1.2)),
  ...range(20).map((index) => wall(index, 'control', 'untreated', 0.9)),
  ...range(10).map((index) => ({
    ...wall(index + 20, 'sham | device that hums all night and day beside the boiler', 'untreated', 1),
    wall: `S${index + 1}`,
  })),
].map((each, index) => ({ ...each, wall: hostileNames[index] ?? each.wall, block: index % 2 === 0 ? '' : each.block }));

const hostileWeaknesses: readonly Weakness[] = weaknessWords.map(([seriousness, code], index) => ({
  code,
  seriousness,
  text: `Weakness ${index + 1}: wall ${hostileNames[index]} was read on 12 days of 30, which is 40 % of them, and more often in one arm (18 of 24) than in the other (9 of 24).`,
  remedy: `Remedy ${index + 1}: read every wall on the same days, whatever ${hostileNames[index + 4]} says.`,
}));

/** Sixty walls in three arms, many weaknesses, hostile text wherever a folder can bring text. */
export const hostile: Opinion = derived({
  ...worthwhile,
  protocol: {
    ...protocol,
    title: `<b>Bold</b> title & ${hostileNames[3]}`,
    claim: `Works | "always" <script>alert('claim')</script> ${'very '.repeat(40)}well`,
    outcome: {
      instrument: 'mw `meter`',
      quantity: 'signal <i>strength</i>',
      unit: 'digits | of a 0–100 scale',
      better: 'higher',
    },
    margin: 1.5,
    arms: [
      { arm: hostileNames[0] ?? '', role: 'treated' },
      { arm: 'control', role: 'control' },
      { arm: 'sham | device that hums all night and day beside the boiler', role: 'sham' },
    ],
    instruments: [{ instrument: 'mw `meter`', kind: 'microwave' }],
    allocation: { method: 'chosen', by: 'the <em>seller</em>' },
    blinding: { readers: false, occupants: true, analyst: false },
    disclosures: { funding: 'seller | of the `device`', interests: '<a href="javascript:alert(1)">all</a>' },
  },
  files: [
    { file: 'protocol.json', rows: 1 },
    { file: "it's a trial.xlsx / readings", rows: 12_345 },
    { file: "it's a trial.xlsx / walls", rows: 60 },
  ],
  verdict: {
    code: 'undecided',
    sentence: 'This trial cannot tell a worthwhile difference from none. Its signal <i>strength</i> says little.',
    evidence: 'shaky',
    weaknesses: hostileWeaknesses,
  },
  threats: hostileWeaknesses.map(threatOf),
  primary: {
    kind: 'estimated',
    method: 'block-model',
    estimate: {
      ...primaryEstimate,
      method: { kind: 'block-model', compared },
      unit: 'digits | of a 0–100 scale',
      estimate: 0.42,
      interval: { level: 0.95, lower: -1.08, upper: 1.92 },
      pValue: 0.58,
      walls: { treated: 30, untreated: 30 },
    },
  },
  analyses: [
    {
      kind: 'estimated',
      estimate: {
        ...adjusted,
        unit: 'digits | of a 0–100 scale',
        estimate: 1.9,
        interval: { level: 0.95, lower: 0.31, upper: 3.49 },
      },
    },
  ],
  walls: hostileWalls,
  stations: stationsOf(hostileWalls),
  elevation: { walls: elevated(hostileWalls), of: 60 },
  leftOutWalls: [
    { wall: '<script>alert(2)</script>', reason: { code: 'no-before-or-after' } },
    { wall: 'L | 2', reason: { code: 'alone-in-block', block: '<b>7</b>' } },
  ],
  leftOutReadings: [
    {
      reason: { code: 'no-value' },
      count: 3,
      origins: [
        { file: "it's a trial.xlsx / readings", row: 2 },
        { file: "it's a trial.xlsx / readings", row: 9 },
        { file: 'readings | b.csv', row: 4 },
      ],
    },
    {
      reason: { code: 'outside' },
      count: 1200,
      origins: range(1200).map((index) => ({ file: "it's a trial.xlsx / readings", row: 20 + 2 * index })),
    },
  ],
  confidenceCurve: {
    estimate: 0.42,
    points: [
      { value: -1.08, pValue: 0.05 },
      { value: 0.42, pValue: 1 },
      { value: 1.92, pValue: 0.05 },
    ],
    intervals: [
      { level: 0.5, lower: -0.08, upper: 0.92 },
      { level: 0.95, lower: -1.08, upper: 1.92 },
    ],
  },
  timeline: {
    ...worthwhile.timeline,
    calendar: calendarOf(hostileWalls, ['2024-03-12', '2024-04-16', '2025-03-11']),
    events: hostileNames.map((note, index) => ({
      day: `2024-06-${String(10 + Math.floor(index / 2)).padStart(2, '0')}`,
      kind: 'other',
      walls: hostileNames[(index + 3) % hostileNames.length] ?? '',
      note,
    })),
  },
});

export const opinionFixtures: Readonly<Record<string, Opinion>> = { worthwhile, notAnswerable, hostile };
