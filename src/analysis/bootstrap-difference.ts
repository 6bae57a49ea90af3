import { type BootstrapSample, bootstrap } from '../statistics/index.js';
import type { Answer } from './answer.js';
import { comparedIn } from './compared.js';
import type { ComparisonDesign } from './comparison-design.js';
import { estimatedUnlessRefused } from './not-estimated.js';
import type { SeededOptions } from './randomisation.js';
import type { WallChange } from './wall-change.js';
import { byBlock, changesOn, differencesInPairs, wallCount } from './wall-groups.js';

const id = 'bootstrap';
const draws = 9_999;

/** From so many walls an arm on, no draw is so often one wall alone that limits could not be studentised. */
const fewestToStudentise = 5;

/**
 * The primary difference with a bootstrap interval: whole walls (in pairs, whole pairs) drawn again with replacement inside
 * their arm and block. Studentised from five walls an arm; with fewer, and in blocks, where a draw is too often the same wall
 * twice, BCa with the correction for few walls.
 *
 * @example bootstrapDifference(design, { level: 0.95, unit: '% by mass', seed: 1 }).estimate.interval // { level: 0.95, lower: -5.152, upper: -3.242 }
 */
export function bootstrapDifference(design: ComparisonDesign, options: SeededOptions): Answer {
  const { seed, level, unit } = options;
  const walls = wallCount(design.walls);
  const isScant = design.kind === 'blocks' || Math.min(walls.treated, walls.untreated) < fewestToStudentise;
  const limits = isScant ? 'bca' : 'studentised';
  return estimatedUnlessRefused({ id }, () => {
    const { estimate, interval, standardError } = bootstrap(sampleOf(design), { seed, level, draws, method: limits });
    return {
      kind: 'estimated',
      estimate: {
        id,
        unit,
        estimate,
        interval,
        standardError,
        method: {
          kind: id,
          compared: comparedIn(design.walls),
          limits,
          draws,
          drawn: design.kind === 'pairs' ? 'pairs' : 'units',
        },
        walls,
      },
    };
  });
}

function sampleOf(design: ComparisonDesign): BootstrapSample {
  const clusters = (changes: readonly number[]) => changes.map((change) => [change]);
  const groups = (walls: readonly WallChange[]) => ({
    treated: clusters(changesOn(walls, 'treated')),
    untreated: clusters(changesOn(walls, 'untreated')),
  });
  switch (design.kind) {
    case 'pairs':
      return { kind: 'one-group', clusters: clusters(differencesInPairs(design.pairs)) };
    case 'blocks':
      return { kind: 'stratified', strata: byBlock(design.walls).map(groups) };
    default:
      return { kind: 'two-groups', ...groups(design.walls) };
  }
}
