import type { Allocation, Trial } from '../../../../src/index.js';
import { confoundingOfDifference, pooledSpread, standardDeviation } from '../../../../src/statistics/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../../helpers/made-trial.js';
import { stepped, trialOfTwo } from '../../../helpers/trial-of-two.js';
import { type Row, rowsOf } from './row.js';
import {
  amountOf,
  atRandom,
  byOwner,
  chosen,
  higher,
  isTreated,
  liftFor,
  lost,
  measured,
  numberOf,
  oneAgainstFour,
  planned,
  reading,
  sound,
  ten,
  unplanned,
  untreatedChanges,
  walling,
  walls,
} from './trials.js';

const treatedOnly = madeTrial(walls.filter(({ arm }) => arm === 'treated'));
/** The plan says what was allocated. */
const unitOf = (unit: NonNullable<Allocation['unit']>, trial: Trial) =>
  planned({ allocation: { ...atRandom, unit } }, trial);
const blockByArm = madeTrial(walls.map((wall) => ({ ...wall, block: wall.arm })));
const untreatedOnly = madeTrial(walls.filter(({ arm }) => arm !== 'treated'));
const oneAndOne = madeTrial(walls.filter(({ wall }) => wall === 'T1' || wall === 'U1'));
/** Walls at sites of so many, each site of one arm; or with a name of another kind. */
const grouped = (size: number, what: 'site' | 'block') =>
  walling((wall) => ({ ...wall, [what]: `${wall.arm} ${Math.floor((numberOf(wall.wall) - 1) / size)}` }));
/** Each wall a neighbour of the next one of its arm. */
const inRows = (trial = sound) =>
  walling(
    (wall) => (numberOf(wall.wall) < 6 ? { ...wall, neighbours: [`${wall.wall[0]}${numberOf(wall.wall) + 1}`] } : wall),
    trial,
  );
const ofArms = (treated: number, untreated: number) => {
  const changesOf = (count: number, about: number) => Array.from({ length: count }, (_, at) => about + 0.1 * (at % 3));
  return madeTrial(wallsWithChanges(changesOf(treated, -4), changesOf(untreated, 0)));
};
const twoAndTwo = madeTrial(walls.filter(({ wall }) => numberOf(wall) < 3));
const inPairs = madeTrial(walls.map((wall) => ({ ...wall, block: `P${numberOf(wall.wall)}` })));
const nothingBefore = madeTrial(
  lost(
    walls,
    walls.map(({ wall }) => wall),
    'before',
  ),
);

// Before values are 8, 8.25, …, 9.25 in either arm until the treated ones are lifted.
const before = [0, 1, 2, 3, 4, 5].map((at) => 8 + 0.25 * at);
const spread = standardDeviation(before);
const lifted = (lift: number, trial = sound) =>
  reading((one) => (isTreated(one.wall) ? { ...one, value: measured(amountOf(one) + lift) } : one), trial);
const liftAt = (pValue: number) => liftFor(pValue, before, before);
/** In pairs the treated wall stands above its partner by `lift` and a little more or less. */
const liftedInPairs = (lift: number) =>
  reading(
    (one) =>
      isTreated(one.wall) ? { ...one, value: measured(amountOf(one) + lift + 0.01 * (numberOf(one.wall) % 2)) } : one,
    inPairs,
  );

const smallEffect = chosen(madeTrial(wallsWithChanges([-0.9, -0.2, -1.3, -0.6, -1.1, -0.4], untreatedChanges)));
const eValue = (() => {
  const treated = [-0.9, -0.2, -1.3, -0.6, -1.1, -0.4];
  const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;
  const sd = pooledSpread(treated, untreatedChanges).standardDeviation;
  const error = Math.hypot(standardDeviation(treated), standardDeviation(untreatedChanges)) / Math.sqrt(6);
  return confoundingOfDifference({
    difference: (mean(treated) - mean(untreatedChanges)) / sd,
    standardError: error / sd,
  }).forLimit;
})();

const kinds = (treated: readonly string[], untreated: readonly string[], what: 'material' | 'exposure' = 'material') =>
  walling((wall) => ({ ...wall, [what]: (isTreated(wall.wall) ? treated : untreated)[numberOf(wall.wall) - 1] ?? '' }));
const repeat = (count: number, kind: string, rest: string) =>
  Array.from({ length: 6 }, (_, at) => (at < count ? kind : rest));
const thick = (treated: readonly number[], untreated: readonly number[]) =>
  walling((wall) => {
    const thickness_mm = (isTreated(wall.wall) ? treated : untreated)[numberOf(wall.wall) - 1] ?? 0;
    return { ...wall, thickness_mm };
  });
const same = (value: number) => Array<number>(6).fill(value);
const nothingDescribed = walling(({ material: _, thickness_mm: __, ...wall }) => wall);

/** Thicknesses that overlap between the arms, the treated ones so much more on average that Welch’s p-value is this. */
const uneven = [200, 420, 260, 480, 300, 380];
const thickAt = (pValue: number) => {
  const lift = liftFor(pValue, uneven, uneven);
  return thick(
    uneven.map((one) => one + lift),
    uneven,
  );
};

/** The first so many of twenty walls say nothing of one thing. */
const without = (count: number, what: 'site' | 'material' | 'thickness_mm') =>
  walling((wall, at) => {
    if (at >= count) return wall;
    const { [what]: _, ...rest } = wall;
    return rest;
  }, ten);

const threeArms = planned(
  {
    arms: [
      { arm: 'treated', role: 'treated' },
      { arm: 'paste', role: 'treated' },
      { arm: 'sham', role: 'sham' },
    ],
  },
  walling((wall) => (isTreated(wall.wall) && numberOf(wall.wall) > 3 ? { ...wall, arm: 'paste' } : wall)),
);

const screened = { walls: 80, mean: 7, standardDeviation: 3, cutoff: 10 };
/** Two visits before, 2 sqrt(1.35) apart: reliability 0.7, so that walls above 10 are expected to fall by 0.3 × 3 × φ(1) / (1 − Φ(1)). */
const expectedFall = 0.9 * 1.5251352761609807;
const screenedTrial = (() => {
  const away = Math.sqrt(1.35);
  const readings = sound.readings.flatMap((one) =>
    one.date > '2025'
      ? [one]
      : [
          { ...one, date: '2024-03-10', value: measured(amountOf(one) + away) },
          { ...one, date: '2024-05-10', value: measured(amountOf(one) - away) },
        ],
  );
  return planned({ selection: 'wettest', screened }, { ...sound, readings });
})();
/** All that was won was won by the walls that stood highest: at the same before value the arms do not differ. */
const regressed = madeTrial(
  walls.map((wall, at) => {
    const start = (isTreated(wall.wall) ? 10 : 8) + 0.3 * (at % 6);
    return { ...wall, before: start, after: start - 1.5 * (start - 8) + 0.5 * Math.sin(2.4 * at) };
  }),
  { protocol: { ...soundProtocol, allocation: atRandom, selection: 'wettest' } },
);

export const allocationRows: readonly Row[] = [
  ...rowsOf(
    'no-untreated-walls',
    ['fatal', 'all six walls were treated', treatedOnly, { direction: 'towards the claim' }],
    ['not found', 'six walls were not', sound],
  ),
  ...rowsOf(
    'no-treated-walls',
    ['fatal', 'none of six walls was treated', untreatedOnly],
    ['no entry', 'six walls were treated', sound],
  ),
  ...rowsOf(
    'one-wall-an-arm',
    ['fatal', 'one against one, read once before and after', oneAndOne],
    ['fatal', 'each arm is one block', blockByArm],
    ['serious', 'one in a block against two, on which an interval can be put', oneAgainstFour],
    ['serious', 'one against one, read as a series', trialOfTwo(stepped(-4)), { atBest: 'shaky' }],
    ['no entry', 'two against two', twoAndTwo],
  ),
  ...rowsOf(
    'arms-confounded-with-blocks',
    ['fatal', 'each arm is a block, and walls are the units by plan', unitOf('wall', blockByArm)],
    ['not found', 'blocks of both arms, and walls are the units by plan', unitOf('wall', inPairs)],
    ['no entry', 'each arm is a block, which is then the unit', blockByArm],
    ['not found', 'walls in pairs', inPairs],
    ['no entry', 'no blocks', sound],
  ),
  ...rowsOf(
    'allocation-not-stated',
    [
      'silent',
      'nobody is named',
      planned({ allocation: { ...atRandom, by: ' ' } }),
      { direction: 'towards the claim' },
    ],
    ['silent', 'nobody is named who chose', planned({ allocation: { ...byOwner, by: '' } })],
    ['not found', 'somebody is named', sound],
  ),
  ...rowsOf(
    'not-randomised',
    ['serious', 'the owner chose, and a strong cause would be needed', smallEffect, { value: eValue }],
    ['not found', 'at random', sound],
    ['not found', 'at random in blocks', planned({ allocation: { ...atRandom, method: 'randomised-in-blocks' } })],
    ['not found', 'at random in pairs', planned({ allocation: { ...atRandom, method: 'matched-pairs' } }, inPairs)],
  ),
  ...rowsOf(
    'before-values-unlike',
    ['not found', 'at random, p just above 0.03', lifted(liftAt(0.0301)), { pValue: 0.0301, within: 'alarm' }],
    ['minor', 'at random, p just below 0.03', lifted(liftAt(0.0299)), { pValue: 0.0299, beyond: 'alarm' }],
    ['minor', 'at random, p just above 0.01', lifted(liftAt(0.0101)), { pValue: 0.0101, within: 'plainAlarm' }],
    ['serious', 'at random, p just below 0.01', lifted(liftAt(0.0099)), { pValue: 0.0099, beyond: 'plainAlarm' }],
    [
      'serious',
      'wetter treated walls come down by themselves',
      lifted(3),
      { value: 3, direction: 'towards the claim' },
    ],
    ['serious', 'drier treated walls go up by themselves', lifted(-3), { value: -3, direction: 'away from the claim' }],
    [
      'serious',
      'and the other way round where higher is better',
      higher(lifted(-3)),
      { value: 3, direction: 'away from the claim' },
    ],
    ['serious', 'drier ones there come up', higher(lifted(3)), { value: -3, direction: 'towards the claim' }],
    ['not found', 'chosen, just under half a deviation', chosen(lifted(0.499 * spread)), { within: 'beforeApart_sd' }],
    ['serious', 'chosen, half a deviation', chosen(lifted(0.501 * spread)), { beyond: 'beforeApart_sd' }],
    ['serious', 'chosen, half a deviation the other way', chosen(lifted(-0.501 * spread))],
    ['serious', 'in pairs, every treated wall above its partner by a tenth', liftedInPairs(0.1)],
    ['no entry', 'nothing was read before', nothingBefore],
  ),
  ...rowsOf(
    'treated-walls-wettest',
    [
      'not found',
      'chosen, just under half a deviation wetter',
      chosen(lifted(0.499 * spread)),
      { within: 'beforeApart_sd' },
    ],
    ['serious', 'chosen, half a deviation wetter', chosen(lifted(0.501 * spread)), { beyond: 'beforeApart_sd' }],
    ['not found', 'chosen, and drier', chosen(lifted(-3))],
    [
      'serious',
      'chosen, and lower where higher is better',
      chosen(higher(lifted(3))),
      { direction: 'towards the claim' },
    ],
    ['not found', 'chosen, and higher where higher is better', chosen(higher(lifted(-3)))],
    ['no entry', 'at random, however wet', lifted(3)],
  ),
  ...rowsOf(
    'walls-chosen-wettest',
    ['minor', 'at random from the wettest, which untreated walls share', planned({ selection: 'wettest' })],
    ['serious', 'chosen from the wettest', planned({ selection: 'wettest' }, chosen())],
    ['serious', 'at random, and nothing left among walls of the same before value', regressed],
    [
      'minor',
      'the expected fall by the formula',
      screenedTrial,
      { value: expectedFall, direction: 'towards the claim' },
    ],
    ['not found', 'not picked by moisture', planned({ selection: 'not-by-moisture' })],
    ['no entry', 'the plan does not say', sound],
  ),
  ...(['site', 'material', 'thickness_mm'] as const).flatMap((what) =>
    rowsOf(
      'walls-not-described',
      ['not found', `18 of 20 walls state ${what}`, without(2, what), { within: 'stated' }],
      ['silent', `17 of 20 walls state ${what}`, without(3, what), { beyond: 'stated' }],
    ),
  ),
  ...rowsOf(
    'walls-unlike',
    ['not found', 'one material', sound],
    ['serious', 'at random, brick against stone', kinds(repeat(6, 'brick', ''), repeat(6, 'stone', ''))],
    ['not found', 'at random, one wall in six alike', kinds(repeat(6, 'brick', ''), repeat(1, 'brick', 'stone'))],
    [
      'serious',
      'chosen, half of the walls alike',
      chosen(kinds(repeat(6, 'brick', ''), repeat(3, 'brick', 'stone'))),
      { beyond: 'unlikeShare' },
    ],
    [
      'not found',
      'chosen, four in six alike',
      chosen(kinds(repeat(6, 'brick', ''), repeat(4, 'brick', 'stone'))),
      { within: 'unlikeShare' },
    ],
    [
      'not found',
      'at random, one wall of stone against four of brick',
      walling((wall) => ({ ...wall, material: isTreated(wall.wall) ? 'stone' : 'brick' }), oneAgainstFour),
    ],
    ['not found', 'Brick and brick are one', kinds(repeat(6, 'Brick ', ''), repeat(6, 'brick', ''))],
    [
      'serious',
      'at random, all treated walls face the weather',
      kinds(repeat(6, 'weather', ''), repeat(6, 'sheltered', ''), 'exposure'),
    ],
    [
      'serious',
      'at random, all treated walls 1.2 times as thick',
      thick(same(360), same(300)),
      { beyond: 'unlikeRatio' },
    ],
    ['not found', 'at random, 1.19 times as thick', thick(same(357), same(300)), { within: 'unlikeRatio' }],
    [
      'not found',
      'chosen, 1.19 times as thick on average',
      chosen(thick([200, 514, ...same(357).slice(2)], same(300))),
    ],
    ['serious', 'chosen, 1.21 times as thick on average', chosen(thick([200, 526, ...same(363).slice(2)], same(300)))],
    ['not found', 'at random, overlapping, p just above 0.03', thickAt(0.0306), { within: 'alarm' }],
    ['minor', 'at random, overlapping, p just below 0.03', thickAt(0.0294), { beyond: 'alarm' }],
    [
      'serious',
      'all treated walls a third as dense again',
      walling((wall) => ({ ...wall, dryDensity_kg_m3: isTreated(wall.wall) ? 2000 : 1500 })),
    ],
    ['no entry', 'nothing is said of the walls', nothingDescribed],
  ),
  ...rowsOf(
    'arms-pooled',
    ['serious', 'two treatments, and no word in the plan', threeArms],
    [
      'not found',
      'two treatments, of which the plan compares one',
      planned({ compare: { treated: ['treated'], untreated: ['sham'] } }, threeArms),
    ],
    ['no entry', 'one treatment', sound],
  ),
  ...rowsOf(
    'walls-of-one-house',
    ['minor', 'houses of three walls, each of one arm', grouped(3, 'site'), { value: 4 }],
    ['minor', 'blocks of three walls, each of one arm', grouped(3, 'block'), { value: 4 }],
    [
      'not found',
      'houses of three walls, which the plan names as units',
      unitOf('site', grouped(3, 'site')),
      { value: 4 },
    ],
    ['not found', 'a house for each wall', grouped(1, 'site')],
    ['not found', 'all under one roof', sound],
    ['no entry', 'strips of one wall', inRows()],
    [
      'no entry',
      'nothing was read',
      madeTrial(
        lost(
          lost(
            walls,
            walls.map(({ wall }) => wall),
          ),
          walls.map(({ wall }) => wall),
          'before',
        ),
      ),
    ],
  ),
  ...rowsOf(
    'strips-of-one-wall',
    [
      'serious',
      'two walls of an arm are neighbours',
      walling((wall) => (wall.wall === 'T1' ? { ...wall, neighbours: ['T2'] } : wall)),
      { value: 11 },
    ],
    ['serious', 'six strips of each arm in a row', inRows(), { value: 2 }],
    [
      'no entry',
      'neighbours of the other arm',
      walling((wall) => (wall.wall === 'T1' ? { ...wall, neighbours: ['U1'] } : wall)),
    ],
    ['no entry', 'neighbours in another block', inRows(inPairs)],
    [
      'no entry',
      'neighbours at other sites',
      inRows(walling((wall) => ({ ...wall, site: `house ${numberOf(wall.wall)}` }))),
    ],
    ['no entry', 'the plan names walls as units', unitOf('wall', inRows())],
    ['no entry', 'no neighbours', sound],
  ),
  ...rowsOf(
    'too-few-walls',
    // 2 of 20 allocations, 2 of 70.
    ['serious', 'three against three', madeTrial(wallsWithChanges([-4, -3, -5], [0, 1, -1])), { value: 0.1 }],
    [
      'not found',
      'four against four',
      madeTrial(wallsWithChanges([-4, -3, -5, -4.5], [0, 1, -1, 0.5])),
      { value: 2 / 70 },
    ],
    [
      'serious',
      'four against four at 97.3 % confidence, which asks for 0.027',
      planned({ confidence: 0.973 }, madeTrial(wallsWithChanges([-4, -3, -5, -4.5], [0, 1, -1, 0.5]))),
      { value: 2 / 70 },
    ],
    ['no entry', 'one against one', oneAndOne],
  ),
  ...rowsOf(
    'arms-unequal',
    ['minor', 'five against ten', ofArms(5, 10), { value: 5, beyond: 'armsUnequal' }],
    ['not found', 'five against nine', ofArms(5, 9), { value: 5, within: 'armsUnequal' }],
    ['minor', 'twelve against five', ofArms(12, 5), { value: 5, beyond: 'smallArm' }],
    ['not found', 'twelve against six', ofArms(12, 6), { value: 6, within: 'smallArm' }],
    ['no entry', 'four against one', oneAgainstFour],
    ['no entry', 'pairs', inPairs],
  ),
  ...rowsOf(
    'no-interval',
    ['fatal', 'changes that do not vary', madeTrial(wallsWithChanges([-1, -1], [-1, -1]))],
    ['no entry', 'an interval', sound],
    ['no entry', 'none, for a reason that another search names', unplanned('windows')],
  ),
];
