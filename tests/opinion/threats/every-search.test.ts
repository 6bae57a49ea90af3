import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { limits, searches, type Threat, threatDomains, verdictOfTrial } from '../../../src/index.js';
import { turningPoints } from '../../../src/opinion/judging/turning-points.js';
import { isWeighed } from '../../../src/opinion/threats/threat.js';
import { tippingPoint } from '../../../src/opinion/threats/turn-in-words.js';
import { shortFact } from '../../../src/report/words/first-sentence.js';
import { airAndWaterRows } from './rows/air-and-water.js';
import { allocationRows } from './rows/allocation.js';
import { electrodeRows } from './rows/electrodes.js';
import { inventedRows } from './rows/invented.js';
import { lockRows } from './rows/lock.js';
import { measurementRows } from './rows/measurement.js';
import { missingRows } from './rows/missing.js';
import { resultRows } from './rows/result.js';
import { type LimitName, nameOfRow, outcomeOf, type Row, threatsOf } from './rows/row.js';
import { saltRows } from './rows/salts.js';
import { stationRows } from './rows/stations.js';
import { timingRows } from './rows/timing.js';
import { trayRows } from './rows/trays.js';
import { treatmentDayRows } from './rows/treatment-days.js';
import { higher, planned, sound } from './rows/trials.js';
import { waterSourceRows } from './rows/water-source.js';

const rows: readonly Row[] = [
  ...allocationRows,
  ...timingRows,
  ...treatmentDayRows,
  ...trayRows,
  ...electrodeRows,
  ...airAndWaterRows,
  ...missingRows,
  ...stationRows,
  ...measurementRows,
  ...inventedRows,
  ...saltRows,
  ...waterSourceRows,
  ...resultRows,
  ...lockRows,
];

it('no two rows are called the same', () => {
  expect(new Set(rows.map(nameOfRow)).size).toBe(rows.length);
});

function faultsOf(threat: Threat): readonly string[] {
  const { code, domain, text, tipping, remedy, finding, needs, restsOn, seriousness } = threat;
  const isOpen = finding === 'could-not-be-looked-for';
  return [
    ...(threatDomains.includes(domain) ? [] : [`${code}: ${domain}`]),
    ...[text, tipping, remedy].filter((sentence) => !/^\S.*\S\.$/.test(sentence)).map((said) => `${code}: ${said}`),
    ...((needs !== undefined) === isOpen ? [] : [`${code}: ${finding}, needs ${needs}`]),
    // Silence weighs where it is silence on a core item, and nowhere else.
    ...(isOpen && seriousness !== undefined && restsOn.length === 0 ? [`${code}: weighs, rests on nothing`] : []),
  ];
}

describe('every search', () => {
  let lists: readonly (readonly Threat[])[];
  beforeAll(() => {
    lists = rows.map(threatsOf);
    // Some three hundred trials.
  }, 240_000);

  it.each(searches.map(({ code }) => code))('%s has a trial with its fault, and one without', (code) => {
    const outcomes = new Set(rows.flatMap((row) => (row.code === code ? [row.outcome] : [])));
    expect(['fatal', 'serious', 'minor', 'silent'].some((one) => outcomes.has(one as Row['outcome']))).toBe(true);
    expect(outcomes.has('not found') || outcomes.has('no entry')).toBe(true);
  });

  it('comes back with nothing on any of these trials that no row of its own holds', () => {
    const held = new Set(rows.map(({ code, outcome }) => `${code}: ${outcome}`));
    const seen = lists.flatMap((threats) => threats.map((threat) => `${threat.code}: ${outcomeOf(threat)}`));
    expect([...new Set(seen)].filter((one) => !held.has(one)).sort()).toEqual([]);
  });

  it('stands in the list under its own domain, once, with whole sentences', () => {
    expect(new Set(searches.map(({ code }) => code)).size).toBe(searches.length);
    // Held to one list in the end: a matcher for each of a hundred thousand texts takes ten seconds.
    const wrong = lists.flatMap((threats) => {
      const codes = threats.map(({ code }) => code);
      return [
        ...codes.filter((code, at) => codes.indexOf(code) !== at).map((code) => `${code}: twice`),
        ...threats.flatMap(faultsOf),
      ];
    });
    expect([...new Set(wrong)]).toEqual([]);
  });

  it('begins with a fact that is short enough for the first page, where it weighs', () => {
    const weighed = lists.flatMap((threats) => threats.filter(isWeighed));
    const cut = weighed.flatMap(({ code, text, tippingIs, tipping }) => [
      ...(shortFact(text) === '' ? [`${code}: ${text}`] : []),
      ...(tippingIs === 'its-own' && shortFact(tipping) === '' ? [`${code}, what would turn it: ${tipping}`] : []),
    ]);
    expect([...new Map(cut.map((one) => [one.slice(0, one.indexOf(':')), one])).values()]).toEqual([]);
  });
});

describe('every limit', () => {
  const names = Object.keys(limits) as LimitName[];
  it.each(names)('%s has a trial on either side', (name) => {
    expect(rows.some(({ beyond }) => beyond === name)).toBe(true);
    expect(rows.some(({ within }) => within === name)).toBe(true);
  });

  it('is read by a search', () => {
    const rooms = ['findings', 'opinion'].map((room) => join(import.meta.dirname, '..', '..', '..', 'src', room));
    const sources = rooms.flatMap((room) =>
      readdirSync(room, { recursive: true, encoding: 'utf8' })
        .filter((file) => file.endsWith('.ts'))
        .map((file) => join(room, file)),
    );
    const text = sources.map((file) => readFileSync(file, 'utf8')).join('\n');
    expect(names.filter((name) => !text.includes(`limits.${name}.value`))).toEqual([]);
  });
});

describe('what would change the verdict', () => {
  it('is a bias of the distance from the interval to the margin, or to zero', () => {
    const { facts, threats } = verdictOfTrial(sound, 1);
    if (facts.primary.kind !== 'estimated') throw new Error(facts.primary.reason.code);
    const { lower, upper } = facts.primary.estimate.interval;
    // Worthwhile: towards the claim the nearest turn is at the margin of 2. No bias away from it changes the verdict.
    expect(upper).toBeLessThan(-2);
    const towards = threats.find(({ code }) => code === 'plan-undated');
    expect(towards?.tippingPoint).toBeCloseTo(-2 - upper, 9);
    expect(threats.find(({ code }) => code === 'carry-over')?.tippingPoint).toBeUndefined();
    expect(threats.find(({ code }) => code === 'not-randomised')?.tippingPoint).toBeCloseTo(-2 - upper, 9);
    expect(threats.find(({ code }) => code === 'carry-over')?.tipping).toMatch(/^No bias away from the claim/);
    // Short of a margin of 6: a bias away from the claim may hide that it is reached.
    const short = verdictOfTrial(planned({ margin: 6 }), 1).threats;
    expect(short.find(({ code }) => code === 'carry-over')?.tippingPoint).toBeCloseTo(6 + lower, 9);
    expect(short.find(({ code }) => code === 'plan-undated')?.tippingPoint).toBeCloseTo(-upper, 9);
  });

  it('is the same where higher is better', () => {
    const tipping = (trial: typeof sound) =>
      new Map(verdictOfTrial(trial, 1).threats.map(({ code, tippingPoint }) => [code, tippingPoint?.toFixed(9)]));
    const [lower, turned] = [tipping(sound), tipping(higher(sound))];
    // Only what is to become less can be too little to lose.
    expect([...lower.keys()].filter((code) => !turned.has(code))).toEqual(['walls-too-dry']);
    lower.delete('walls-too-dry');
    expect(turned).toEqual(lower);
  });

  it('either way is the nearer of the two', () => {
    const turning = turningPoints({ level: 0.95, lower: -1.5, upper: -0.1 }, 2, 'lower');
    expect(tippingPoint(turning, 'towards the claim')).toBeCloseTo(0.1, 12);
    expect(tippingPoint(turning, 'away from the claim')).toBeCloseTo(0.5, 12);
    expect(tippingPoint(turning, 'either way')).toBeCloseTo(0.1, 12);
  });
});
