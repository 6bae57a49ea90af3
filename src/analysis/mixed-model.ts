import {
  designMatrix,
  factor,
  fitMixedModel,
  intercept,
  isStatisticsError,
  kenwardRoger,
  StatisticsError,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import type { ComparisonDesign } from './comparison-design.js';
import { comparisonWords } from './comparison-words.js';
import { type NestedStation, nestedStations } from './nested-stations.js';
import { notEstimated } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import type { StationChange } from './wall-change.js';
import { wallCount } from './wall-groups.js';

const id = 'mixed-model';
const label = 'Linear mixed model, stations nested in walls';

/**
 * The difference of changes from a linear mixed model of the stations' changes: arm as a fixed effect, walls and, where the
 * design has them, blocks as random effects, by restricted maximum likelihood with Kenward and Roger's degrees of freedom.
 * Walls with more stations count for more, as far as stations tell of their wall.
 *
 * @example mixedModel(design, changes.stations, { level: 0.95, unit: '% by mass' }).estimate.estimate // -4.144
 */
export function mixedModel(
  design: ComparisonDesign,
  stations: readonly StationChange[],
  options: PrimaryOptions,
): Answer {
  const nested = nestedStations(design, stations);
  const isBlocked = design.kind === 'pairs' || design.kind === 'blocks';
  const { one, many, value, values, taken } = comparisonWords(design.walls);
  // Walls inside a site vary by themselves where they have stations of their own to tell it.
  const walls = new Set(nested.map(({ wall }) => wall)).size;
  const hasWallsInside = new Set(nested.map(({ unit }) => unit)).size < walls && walls < nested.length;
  try {
    requireReplicates(nested);
    requireSpareWalls(design);
    const fit = fitMixedModel({
      response: nested.map(({ change }) => change),
      fixed: designMatrix([
        intercept(),
        factor(
          'arm',
          nested.map(({ side }) => side),
          { reference: 'untreated' },
        ),
      ]),
      random: [
        { name: one, groups: nested.map(({ unit }) => unit) },
        ...(hasWallsInside ? [{ name: 'walls inside', groups: nested.map(({ wall }) => wall) }] : []),
        ...(isBlocked ? [{ name: 'block', groups: nested.map(({ block }) => block) }] : []),
      ],
      method: 'reml',
    });
    requireVaryingUnits(fit.boundary, one);
    const { statistic: _, ...result } = kenwardRoger(fit, { 'arm: treated': 1 }, { level: options.level });
    return {
      kind: 'estimated',
      estimate: {
        id,
        label,
        quantity: `treated ${many}’ ${value} less untreated ${many}’ ${value}`,
        unit: options.unit,
        ...result,
        method: `linear mixed model of the stations’ ${values}, stations in ${hasWallsInside ? 'walls in ' : ''}${many}${isBlocked ? ' in blocks' : ''}, restricted maximum likelihood, Kenward and Roger’s degrees of freedom`,
        assumptions: [
          `stations of a ${one} vary around it, and ${many} around their arm, normally and with the same spread everywhere`,
          `trust it beside the primary analysis where ${many} have unlike numbers of stations`,
          ...taken,
          ...fit.boundary.map((term) => `the estimated variance of ${term} is zero`),
        ],
        walls: wallCount(design.walls),
      },
    };
  } catch (error) {
    return notEstimated(id, label, error, {
      'out-of-range': `no ${one} has more than one station`,
      'no-variation':
        isStatisticsError(error) && error.where === 'fitMixedModel'
          ? `the stations of each ${one} change alike, as copied readings do`
          : `${many} seem to vary no more than their stations do, and stations would then count as if they were ${many}`,
    });
  }
}

/** Without walls to spare, how walls treated alike differ is not in the data, and stations would be taken for walls. */
function requireSpareWalls({ kind, walls }: ComparisonDesign): void {
  const { treated, untreated } = wallCount(walls);
  const groups = kind === 'complete' ? 1 : new Set(walls.map(({ block }) => block)).size;
  if (walls.length > groups + 1 && (kind !== 'complete' || Math.min(treated, untreated) > 1)) return;
  throw new StatisticsError('mixedModel', 'too-few', 'needs walls to spare in the arms and blocks');
}

function requireVaryingUnits(boundary: readonly string[], unit: string): void {
  if (boundary.some((name) => name.startsWith(unit)))
    throw new StatisticsError('mixedModel', 'no-variation', 'needs units that vary');
}

function requireReplicates(nested: readonly NestedStation[]): void {
  if (new Set(nested.map(({ unit }) => unit)).size < nested.length) return;
  throw new StatisticsError('mixedModel', 'out-of-range', 'needs walls with more than one station');
}
