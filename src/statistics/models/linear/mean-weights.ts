import { StatisticsError } from '../../statistics-error.js';
import type { ContrastWeights } from './contrast-weights.js';
import type { DesignTerm, FactorTerm } from './design-term.js';
import { columnLevels, indicatorName, interactionName } from './term-columns.js';

/** The weights that make a model's estimated mean at one level of a factor. */
export interface MeanWeights {
  readonly level: string;
  readonly weights: ContrastWeights;
}

/**
 * Weights of the coefficients for the mean at each level of a factor, all else alike: covariates at their mean over the
 * data, every combination of the other factors' levels counted once, whatever its number of observations ("estimated
 * marginal means", "least-squares means"). Searle, Speed and Milliken, The American Statistician 34 (1980) 216–221.
 *
 * For use with any fit on the same terms, be it by least squares or a mixed model.
 *
 * @throws StatisticsError `out-of-range` where no term holds the factor, or one name stands for two different factors
 * @example meanWeights(terms, 'arm')[1] // { level: 'treated', weights: { intercept: 1, 'arm: treated': 1 } }
 */
export function meanWeights(terms: readonly DesignTerm[], factorName: string): MeanWeights[] {
  const factors = factorsIn(terms);
  const target = factors.get(factorName);
  if (target === undefined) {
    const known = [...factors.keys()].map((name) => `"${name}"`).join(', ') || 'none';
    throw new StatisticsError(
      'meanWeights',
      'out-of-range',
      `needs a factor of the model, got "${factorName}"; factors: ${known}`,
    );
  }
  const others = [...factors.values()].filter((other) => other !== target);
  const combinations = levelCombinations(others);
  return target.levels.map((level) => ({
    level,
    weights: averageRow(
      terms,
      combinations.map((point) => new Map([...point, [factorName, level]])),
    ),
  }));
}

/**
 * Weights of the difference of two means.
 *
 * @example differenceOfWeights({ intercept: 1, 'arm: treated': 1 }, { intercept: 1 }) // { intercept: 0, 'arm: treated': 1 }
 */
export function differenceOfWeights(first: ContrastWeights, second: ContrastWeights): ContrastWeights {
  const names = Object.keys({ ...first, ...second });
  return Object.fromEntries(names.map((name) => [name, (first[name] ?? 0) - (second[name] ?? 0)]));
}

/** A level of each factor. */
type GridPoint = ReadonlyMap<string, string>;

function factorsIn(terms: readonly DesignTerm[]): Map<string, FactorTerm> {
  const found = new Map<string, FactorTerm>();
  for (const term of terms.flatMap(mainTerms)) {
    if (term.kind !== 'factor') continue;
    const known = found.get(term.name);
    if (known !== undefined && known.levels.join('\n') !== term.levels.join('\n')) {
      const detail = `needs factors named apart, got two different ones named "${term.name}"; rename one`;
      throw new StatisticsError('meanWeights', 'out-of-range', detail);
    }
    if (known === undefined) found.set(term.name, term);
  }
  return found;
}

function mainTerms(term: DesignTerm): DesignTerm[] {
  return term.kind === 'interaction' ? [...mainTerms(term.first), ...mainTerms(term.second)] : [term];
}

function levelCombinations(factors: readonly FactorTerm[]): GridPoint[] {
  return factors.reduce<GridPoint[]>(
    (points, { name, levels }) => points.flatMap((point) => levels.map((level) => new Map([...point, [name, level]]))),
    [new Map()],
  );
}

function averageRow(terms: readonly DesignTerm[], points: readonly GridPoint[]): ContrastWeights {
  const totals = new Map<string, number>();
  for (const point of points) {
    for (const [name, value] of terms.flatMap((term) => entriesAt(term, point))) {
      totals.set(name, (totals.get(name) ?? 0) + value);
    }
  }
  return Object.fromEntries(Array.from(totals, ([name, total]) => [name, total / points.length]));
}

/** The columns that are not zero at a point of the grid, with their values. */
function entriesAt(term: DesignTerm, point: GridPoint): [string, number][] {
  switch (term.kind) {
    case 'intercept':
      return [['intercept', 1]];
    case 'covariate':
      return [[term.name, term.values.reduce((sum, value) => sum + value / term.values.length, 0)]];
    case 'factor':
      return columnLevels(term)
        .filter((level) => level === point.get(term.name))
        .map((level) => [indicatorName(term.name, level), 1]);
    case 'interaction': {
      const second = entriesAt(term.second, point);
      return entriesAt(term.first, point).flatMap(([a, x]) =>
        second.map(([b, y]): [string, number] => [interactionName(a, b), x * y]),
      );
    }
  }
}
