import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CoreItem,
  coreItems,
  countThreats,
  evidenceFrom,
  type Seriousness,
  type WeighedThreat,
} from '../../src/opinion/index.js';
import { ofSweep } from '../helpers/sweep.js';

const of = (...list: readonly Seriousness[]): WeighedThreat[] => list.map((seriousness) => ({ seriousness }));

const firmestFirst = ['firm', 'fair', 'shaky', 'none'];
const rank = (threats: readonly WeighedThreat[]) => firmestFirst.indexOf(evidenceFrom(threats));

describe('evidenceFrom', () => {
  it.each([
    [[], 'firm'],
    [['minor', 'minor', 'minor'], 'firm'],
    [['minor', 'minor', 'minor', 'minor'], 'fair'],
    [['serious'], 'fair'],
    [['serious', 'minor', 'minor', 'minor'], 'fair'],
    [['serious', 'minor', 'minor', 'minor', 'minor'], 'shaky'],
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
  const on = (seriousness: Seriousness, ...restsOn: readonly CoreItem[]): WeighedThreat => ({ seriousness, restsOn });
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
    [
      'a bridge and what stands clear of it',
      [on('serious', 'air', 'walls'), on('serious', 'walls', 'readers'), on('serious', 'readers', 'instrument')],
      [0, 2, 0],
    ],
    [
      'one of a ring of three',
      [on('serious', 'air', 'walls'), on('serious', 'walls', 'readers'), on('serious', 'readers', 'air')],
      [0, 1, 0],
    ],
    [
      'two of a ring of four',
      [
        on('serious', 'air', 'walls'),
        on('serious', 'walls', 'readers'),
        on('serious', 'readers', 'interests'),
        on('serious', 'interests', 'air'),
      ],
      [0, 2, 0],
    ],
    [
      'three by themselves instead of one on all three items',
      [on('minor', 'air', 'walls', 'readers'), on('minor', 'air'), on('minor', 'walls'), on('minor', 'readers')],
      [0, 0, 3],
    ],
    [
      'a serious bridge before two minor ones',
      [on('minor', 'air'), on('serious', 'air', 'walls'), on('minor', 'walls')],
      [0, 1, 0],
    ],
    [
      'that serious bridge which leaves more minor ones',
      [
        on('serious', 'air', 'walls'),
        on('serious', 'walls', 'readers'),
        on('minor', 'readers'),
        on('minor', 'readers', 'instrument'),
        on('minor', 'instrument'),
      ],
      [0, 1, 2],
    ],
    [
      'a fatal bridge before all that rest on either end',
      [on('serious', 'air'), on('fatal', 'air', 'walls'), on('serious', 'walls'), on('serious', 'readers')],
      [1, 1, 0],
    ],
    [
      'one of fragility and readers beside neither',
      [{ ...on('serious', 'readers'), countsWith: 'fragility' }, fragile('serious'), on('serious', 'readers')],
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
  // Any items, not those alone on which searches rest now.
  const threat = fc.record(
    {
      restsOn: fc.subarray(items, { maxLength: 3 }),
      countsWith: fc.constant('fragility' as const),
      seriousness: fc.constantFrom<Seriousness>('minor', 'minor', 'serious', 'fatal'),
      evidenceAtBest: fc.constantFrom('fair' as const, 'shaky' as const),
    },
    { requiredKeys: ['restsOn'] },
  );
  const light = threat.filter(({ seriousness }) => seriousness !== 'fatal');
  const runs = { numRuns: ofSweep(3_000, 500) };

  it('counts the most that rest on nothing in common, found by trying every selection', () => {
    fc.assert(
      fc.property(fc.array(threat, { maxLength: 9 }), (threats) => {
        expect(countThreats(threats)).toEqual(mostApart(threats));
      }),
      runs,
    );
  });

  it('counts alike in whatever order', () => {
    const shuffled = fc
      .array(threat, { maxLength: 9 })
      .chain((threats) => fc.tuple(fc.constant(threats), fc.shuffledSubarray(threats, { minLength: threats.length })));
    fc.assert(
      fc.property(shuffled, ([threats, other]) => {
        expect(countThreats(other)).toEqual(countThreats(threats));
        expect(evidenceFrom(other)).toBe(evidenceFrom(threats));
      }),
      runs,
    );
  });

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

/** By brute force: of all selections without a common statement, that with most fatal, then serious, then minor threats. */
function mostApart(threats: readonly WeighedThreat[]) {
  let best = { fatal: 0, serious: 0, minor: 0 };
  for (let selection = 0; selection < 2 ** threats.length; selection++) {
    const chosen = threats.filter((_, at) => Math.floor(selection / 2 ** at) % 2 === 1);
    const groups = chosen.flatMap(({ restsOn = [], countsWith }) => [...restsOn, ...(countsWith ? [countsWith] : [])]);
    if (new Set<string>(groups).size < groups.length) continue;
    const number = (one: Seriousness) => chosen.filter(({ seriousness }) => seriousness === one).length;
    const count = { fatal: number('fatal'), serious: number('serious'), minor: number('minor') };
    const difference = count.fatal - best.fatal || count.serious - best.serious || count.minor - best.minor;
    if (difference > 0) best = count;
  }
  return best;
}
