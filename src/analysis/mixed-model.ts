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
import { comparedIn } from './compared.js';
import type { ComparisonDesign } from './comparison-design.js';
import { type NestedStation, nestedStations } from './nested-stations.js';
import { notEstimated } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import type { StationChange, UnitKind } from './wall-change.js';
import { wallCount } from './wall-groups.js';

const id = 'mixed-model';

/** The random term of the units, as a fit that finds no variance in it names it. */
const termNames: Readonly<Record<UnitKind, string>> = { wall: 'wall', site: 'site', block: 'block', strip: 'stretch' };

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
  const compared = comparedIn(design.walls);
  const { units } = compared;
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
        { name: termNames[units], groups: nested.map(({ unit }) => unit) },
        ...(hasWallsInside ? [{ name: 'walls inside', groups: nested.map(({ wall }) => wall) }] : []),
        ...(isBlocked ? [{ name: 'block', groups: nested.map(({ block }) => block) }] : []),
      ],
      method: 'reml',
    });
    requireVaryingUnits(fit.boundary, termNames[units]);
    const { statistic: _, ...result } = kenwardRoger(fit, { 'arm: treated': 1 }, { level: options.level });
    return {
      kind: 'estimated',
      estimate: {
        id,
        unit: options.unit,
        ...result,
        method: { kind: id, compared, isBlocked, hasWallsInside, boundary: fit.boundary },
        walls: wallCount(design.walls),
      },
    };
  } catch (error) {
    return notEstimated({ id }, error, {
      'out-of-range': { code: 'one-station-each', units },
      'no-variation':
        isStatisticsError(error) && error.where === 'fitMixedModel'
          ? { code: 'stations-alike', units }
          : { code: 'units-no-wider-than-stations', units },
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
