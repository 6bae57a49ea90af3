import { mutationsOf } from '../mutation.mjs';

const judging = (name) => `analysis/judging/${name}.test.ts`;

const effects = [
  ...mutationsOf('src/analysis/adjusted-difference.ts', 'analysis/adjusted-difference.test.ts', [
    ["row.window === 'after' ? 1 : 0", "row.window === 'after' ? 0 : 1"],
    ['Math.min(found, spare)', 'Math.max(found, spare)'],
    ['(1 - options.level) / 2', '1 - options.level'],
    ['walls.length - groups - 1;', 'walls.length - groups;'],
  ]),
  ...mutationsOf('src/analysis/after-alone.ts', 'analysis/after-alone.test.ts', [
    ["if (protocol.allocation.method === 'chosen') return false;", "if (protocol.allocation.method === 'chosen') return true;"],
    ["day < (limits.get(wall) ?? '')", "day <= (limits.get(wall) ?? '')"],
  ]),
  ...mutationsOf('src/analysis/comparison-sides.ts', 'analysis/comparison-design.test.ts', [
    ["role === 'treated' ? role : 'untreated'", "role === 'control' ? 'untreated' : 'treated'"],
  ]),
  ...mutationsOf('src/analysis/comparison-design.ts', 'analysis/comparison-design.test.ts', [
    ['filter(({ length }) => length === 1)', 'filter(({ length }) => length === 2)'],
    ['if (walls.length !== 2 ||', 'if (walls.length < 2 ||'],
  ]),
  ...mutationsOf('src/analysis/compared-stations.ts', 'analysis/station-changes.test.ts', [
    ['parts.push({ before, after, change: after - before });', 'parts.push({ before, after, change: before - after });'],
    ['if (complete.length > 0)', 'if (complete.length > 1)'],
  ]),
  ...mutationsOf('src/analysis/difference-of-walls.ts', ['analysis/compare-walls.test.ts', 'analysis/primary-against-r.test.ts'], [
    ['numberOf(treated) - numberOf(untreated)', 'numberOf(untreated) - numberOf(treated)'],
  ]),
  ...mutationsOf('src/analysis/drying-rate-ratio.ts', 'analysis/drying-rate-ratio.test.ts', [
    ['2 * distribution.upperTail(Math.abs(found.statistic))', 'distribution.upperTail(Math.abs(found.statistic))'],
    ['const spare = walls.length - groups;', 'const spare = walls.length - groups - 1;'],
    ['season_d) / daysInYear', 'season_d) / (daysInYear / 2)'],
  ]),
  ...mutationsOf('src/analysis/effect-sizes.ts', 'analysis/effect-sizes.test.ts', [
    ["better === 'lower' ? [treated, untreated] : [untreated, treated]", "better === 'lower' ? [untreated, treated] : [treated, untreated]"],
    ['length < 2)) throw', 'length < 1)) throw'],
  ]),
  ...mutationsOf('src/analysis/cluster-robust-difference.ts', 'analysis/nested-analyses.test.ts', [
    ['const fewestDegrees = 4;', 'const fewestDegrees = 3;'],
    ['(1 - 1e-9) * fewestDegrees', 'fewestDegrees'],
    ["design.kind === 'pairs' ? blocks : nested.map", "design.kind !== 'pairs' ? blocks : nested.map"],
  ]),
];

const judged = [
  ...mutationsOf('src/analysis/judging/before-inside-pairs.ts', judging('before-inside-pairs'), [
    ['standardError * Math.sqrt(units)', 'standardError * units'],
    ['squares / (treated + untreated - 2)', 'squares / (treated + untreated)'],
    ['(treated - 1) * variance(values.treated)', 'treated * variance(values.treated)'],
    ['Math.sqrt(1 / treated + 1 / untreated)', 'Math.sqrt(1 / (treated + untreated))'],
  ]),
  ...mutationsOf('src/analysis/judging/blinding-by-role.ts', [judging('who-read-what'), 'analysis/judging/judging.test.ts'], [
    ['earlier.date <= belief.date', 'earlier.date < belief.date'],
    ['upperTail(right - 1)', 'upperTail(right)'],
    ['binomial(guessed, 0.5)', 'binomial(guessed, 0.6)'],
  ]),
  ...mutationsOf('src/analysis/judging/checks-drift.ts', [judging('judging'), 'analysis/judging/numbers-by-hand.test.ts', 'analysis/judging/who-read-what.test.ts'], [
    ['count - blocks.length - 1;', 'count - blocks.length;'],
    ['(first.length * second.length) / (first.length + second.length)', '1'],
    ['shift: mean(second) - mean(first)', 'shift: mean(first) - mean(second)'],
    ['upperQuantile((1 - level) / 2) * error', 'upperQuantile(1 - level) * error'],
  ]),
  ...mutationsOf('src/analysis/judging/copied-masses.ts', [judging('copied-numbers'), 'analysis/judging/numbers-by-hand.test.ts'], [
    ['const width = 2 * reach + 1;', 'const width = reach + 1;'],
    ['upperTail(repeats.length - 1)', 'upperTail(repeats.length)'],
    ['const shareOfSpan = 0.1;', 'const shareOfSpan = 0.3;'],
    ['water: wet - dry', 'water: wet'],
  ]),
  ...mutationsOf('src/analysis/judging/copied-runs.ts', judging('copied-numbers'), [
    ['const fewest = 4;', 'const fewest = 8;'],
    ['Math.min(1, pValue * comparisons)', 'pValue'],
    ['upperTail(ties - 1)', 'upperTail(ties)'],
  ]),
  ...mutationsOf('src/analysis/judging/find-nothing.ts', [judging('find-nothing'), judging('judging')], [
    ['day < treatedOn,', 'day <= treatedOn,'],
    ['height_mm > limit ?', 'height_mm >= limit ?'],
    ['1 - within / standardDeviation ** 2', '1 - within / standardDeviation'],
    ["better === 'lower' ? 'above' : 'below'", "better === 'lower' ? 'below' : 'above'"],
    ['(means.length - 1) * variance(means)', 'means.length * variance(means)'],
  ]),
  ...mutationsOf('src/analysis/judging/last-digits.ts', [judging('last-digits'), 'analysis/judging/numbers-by-hand.test.ts'], [
    ['const fewest = 100;', 'const fewest = 101;'],
    ['const fewestSteps = 100;', 'const fewestSteps = 90;'],
    ['Math.abs(steps[index] ?? 0) % 10', 'Math.abs(steps[index] ?? 0) % 9'],
    ['least * Math.max(1, tests.length)', 'least'],
  ]),
  ...mutationsOf('src/analysis/judging/losses-by-place.ts', judging('losses-by-place'), [
    ['const fewestWalls = 2;', 'const fewestWalls = 3;'],
    ['lost.treated.share - lost.untreated.share', 'lost.untreated.share - lost.treated.share'],
    ['Math.abs(difference) > unevenShare', 'Math.abs(difference) >= unevenShare'],
    ['lost.length / own.length', 'lost.length / stations.length'],
  ]),
  ...mutationsOf('src/analysis/judging/missing-walls.ts', [judging('judging'), 'analysis/judging/numbers-by-hand.test.ts'], [
    ['missing / (observed + missing)', 'missing / observed'],
    ['filled(1, 0) - filled(0, 0)', 'filled(0, 1) - filled(0, 0)'],
    ['Math.max(missing.treated, missing.untreated)', 'Math.min(missing.treated, missing.untreated)'],
  ]),
  ...mutationsOf('src/analysis/judging/pass-mark.ts', [judging('judging'), 'analysis/judging/numbers-by-hand.test.ts'], [
    ["better === 'lower' ? value <= target : value >= target", "better === 'lower' ? value < target : value >= target"],
    ['100 * (1 - ratio)', '100 * ratio'],
  ]),
  ...mutationsOf('src/analysis/judging/share-explained.ts', judging('judging'), [
    ['moisture.degreesOfFreedom - 1;', 'moisture.degreesOfFreedom;'],
    ['crossed / standIn.residualSumOfSquares', 'crossed / moisture.residualSumOfSquares'],
  ]),
  ...mutationsOf('src/analysis/judging/readings-by-knowledge.ts', [judging('who-read-what'), 'analysis/judging/judging.test.ts'], [
    ['mean(knowing) - mean(blind)', 'mean(blind) - mean(knowing)'],
  ]),
];

const verdicts = mutationsOf('src/analysis/verdict-code.ts', 'analysis/verdict-code.test.ts', [
  ["if (best < 0) return 'harmful';", "if (best <= 0) return 'harmful';"],
  ["return worst > 0 ? 'some-effect' : 'undecided';", "return worst >= 0 ? 'some-effect' : 'undecided';"],
  ['if (worst > margin)', 'if (worst >= margin)'],
  ['if (worst > 0) return best', 'if (worst >= 0) return best'],
  ["best < margin ? 'smaller-than-worthwhile'", "best <= margin ? 'smaller-than-worthwhile'"],
  ["best < margin ? 'no-worthwhile-effect'", "best <= margin ? 'no-worthwhile-effect'"],
  ['[-interval.upper, -interval.lower]', '[-interval.lower, -interval.upper]'],
]);

export const analysisList = [...effects, ...judged, ...verdicts];
