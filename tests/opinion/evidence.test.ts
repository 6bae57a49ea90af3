import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CoreItem,
  coreItems,
  countThreats,
  evidenceFrom,
  type Seriousness,
  searches,
  type WeighedThreat,
} from '../../src/opinion/index.js';

const of = (...list: readonly Seriousness[]): WeighedThreat[] => list.map((seriousness) => ({ seriousness }));

const firmestFirst = ['firm', 'fair', 'shaky', 'none'];
const rank = (threats: readonly WeighedThreat[]) => firmestFirst.indexOf(evidenceFrom(threats));

describe('evidenceFrom', () => {
  it.each([
    [[], 'firm'],
    [['minor', 'minor'], 'firm'],
    [['minor', 'minor', 'minor'], 'fair'],
    [['serious'], 'fair'],
    [['serious', 'minor', 'minor'], 'fair'],
    [['serious', 'minor', 'minor', 'minor'], 'shaky'],
    [['serious', 'serious'], 'shaky'],
    [['fatal'], 'none'],
    [['fatal', 'minor'], 'none'],
  ] as const)('evidenceFrom(%j) is %s', (list, expected) => {
    expect(evidenceFrom(of(...list))).toBe(expected);
  });

  it('is no firmer than any threat allows at best, and no firmer than the rule for all that', () => {
    expect(evidenceFrom([{ seriousness: 'serious', evidenceAtBest: 'shaky' }])).toBe('shaky');
    expect(evidenceFrom([{ seriousness: 'fatal', evidenceAtBest: 'shaky' }])).toBe('none');
    expect(evidenceFrom([...of('serious', 'serious'), { seriousness: 'minor', evidenceAtBest: 'fair' }])).toBe('shaky');
  });

  it('makes nothing of what weighs nothing', () => {
    expect(evidenceFrom([{}, { restsOn: ['air'] }])).toBe('firm');
  });
});

describe('countThreats', () => {
  const air = (seriousness: Seriousness): WeighedThreat => ({ seriousness, restsOn: ['air'] });
  const fragile = (seriousness: Seriousness): WeighedThreat => ({ seriousness, countsWith: 'fragility' });

  it.each<[string, WeighedThreat[], readonly [fatal: number, serious: number, minor: number]]>([
    ['two of one item once', [air('serious'), air('serious')], [0, 1, 0]],
    ['as the more serious of them', [air('minor'), air('serious')], [0, 1, 0]],
    ['a fatal one of it for all', [air('minor'), air('fatal'), air('serious')], [1, 0, 0]],
    ['two items twice', [air('serious'), { seriousness: 'serious', restsOn: ['walls'] }], [0, 2, 0]],
    ['one of two items once', [{ seriousness: 'serious', restsOn: ['air', 'walls'] }], [0, 1, 0]],
    ['and then neither item again', [{ seriousness: 'serious', restsOn: ['air', 'walls'] }, air('minor')], [0, 1, 0]],
    ['those of fewer items first', [{ seriousness: 'serious', restsOn: ['air', 'walls'] }, air('serious')], [0, 1, 0]],
    [
      'both items where each has its own',
      [
        { seriousness: 'serious', restsOn: ['air', 'walls'] },
        air('serious'),
        { seriousness: 'serious', restsOn: ['walls'] },
      ],
      [0, 2, 0],
    ],
    ['fragility once', [fragile('minor'), fragile('serious'), fragile('minor')], [0, 1, 0]],
    ['fragility beside an item', [fragile('minor'), air('minor')], [0, 0, 2]],
    ['those of no item each', of('serious', 'serious', 'minor'), [0, 2, 1]],
  ])('counts %s', (_, threats, [fatal, serious, minor]) => {
    expect(countThreats(threats)).toEqual({ fatal, serious, minor });
    expect(countThreats(threats.toReversed())).toEqual({ fatal, serious, minor });
  });
});

describe('the laws of the rule', () => {
  const items = Object.keys(coreItems) as CoreItem[];
  // What the searches rest on: a threat between two items could take the place of two others, and no search has such.
  const grounds = searches.map(({ restsOn = [], countsWith }) => ({
    restsOn,
    ...(countsWith === undefined ? {} : { countsWith }),
  }));
  const threat = fc
    .record(
      {
        ground: fc.constantFrom(...grounds),
        seriousness: fc.constantFrom<Seriousness>('minor', 'minor', 'serious', 'fatal'),
        evidenceAtBest: fc.constantFrom('fair' as const, 'shaky' as const),
      },
      { requiredKeys: ['ground'] },
    )
    .map(({ ground, ...weight }) => ({ ...ground, ...weight }));
  const light = threat.filter(({ seriousness }) => seriousness !== 'fatal');
  const runs = { numRuns: 3_000 };

  it('one threat more never makes the evidence firmer', () => {
    fc.assert(
      fc.property(fc.array(threat, { maxLength: 8 }), threat, fc.nat(8), (threats, more, at) => {
        expect(rank(threats.toSpliced(at, 0, more))).toBeGreaterThanOrEqual(rank(threats));
      }),
      runs,
    );
  });

  it('a more serious threat never makes the evidence firmer', () => {
    fc.assert(
      fc.property(fc.array(threat, { maxLength: 8 }), threat, (threats, one) => {
        const heavier: WeighedThreat = { ...one, seriousness: one.seriousness === 'minor' ? 'serious' : 'fatal' };
        expect(rank([...threats, heavier])).toBeGreaterThanOrEqual(rank([...threats, one]));
      }),
      runs,
    );
  });

  // Fatal threats are the stated exception, and what allows no better than shaky evidence is allowed for by the silence itself.
  it('silence on an item in place of all that rests on it alone never makes the evidence firmer', () => {
    const resting = light.map(({ evidenceAtBest: _, ...one }) => one);
    fc.assert(
      fc.property(fc.array(resting, { maxLength: 8 }), fc.constantFrom(...items), (threats, item) => {
        const kept = threats.filter(({ restsOn }) => !restsOn.includes(item));
        const silence: WeighedThreat = { seriousness: 'serious', restsOn: [item] };
        expect(rank([...kept, silence])).toBeGreaterThanOrEqual(rank(threats));
      }),
      runs,
    );
  });
});
