import { StatisticsError, type StatisticsFault } from '../../statistics-error.js';
import { checkDesign } from '../linear/check-design.js';
import { type Grouping, grouping } from './grouping.js';
import type { MixedModel, RandomTerm, ResidualStructure } from './mixed-model.js';

const where = 'fitMixedModel';

function refuse(fault: StatisticsFault, detail: string): never {
  throw new StatisticsError(where, fault, detail);
}

/**
 * Refuses data that no mixed model can be fitted to, naming the column, term or level at fault.
 *
 * @returns the levels of each random term
 */
export function checkedGroupings({ response, fixed, random, residual }: MixedModel): Grouping[] {
  checkDesign(where, fixed, response);
  for (const { name, values } of fixed.columns) {
    if (values.every((value) => value === 0)) {
      refuse('empty-level', `needs observations for every level: column "${name}" is zero throughout; remove it`);
    }
  }
  const names = new Set<string>();
  const groupings = random.map((term) => {
    if (names.has(term.name))
      refuse('out-of-range', `needs random terms named apart, got "${term.name}" twice; rename one`);
    names.add(term.name);
    return checkedGrouping(term, response.length);
  });
  checkRepeats(random, groupings);
  if (residual) checkResidual(residual, response.length);
  return groupings;
}

function checkedGrouping(term: RandomTerm, rows: number): Grouping {
  const what = `random term "${term.name}"`;
  checkLabels(what, term.groups, rows);
  const groups = grouping(term.groups);
  const { levels } = groups;
  checkLevels(term, levels);
  if (levels.length < 2) {
    refuse('too-few', `needs at least 2 levels in ${what}, got ${levels.length}; add units or leave the term out`);
  }
  const columns = term.columns ?? [];
  if (term.columns?.length === 0) refuse('too-few', `needs at least one column in ${what}; leave the term out instead`);
  for (const { name, values } of columns) {
    if (values.length !== rows) {
      refuse(
        'lengths-differ',
        `needs as many values as responses: column "${name}" of ${what} has ${values.length}, the response ${rows}`,
      );
    }
    const row = values.findIndex((value) => !Number.isFinite(value));
    if (row >= 0) {
      refuse(
        'not-finite',
        `needs finite numbers: column "${name}" of ${what} holds ${values[row]} at observation ${row + 1}`,
      );
    }
  }
  const effects = levels.length * Math.max(1, columns.length);
  if (effects >= rows) {
    refuse(
      'too-many-parameters',
      `needs fewer random effects than observations: ${what} has ${effects} for ${rows} observations, so its variance cannot be distinguished from the residual's; leave it out or take repeated readings`,
    );
  }
  return groups;
}

function checkLabels(what: string, labels: readonly (string | number)[], rows: number): void {
  if (labels.length !== rows) {
    refuse('lengths-differ', `needs a group for every response: ${what} has ${labels.length}, the response ${rows}`);
  }
  let row = 0;
  while (row < labels.length && isLabel(labels[row])) row++;
  if (row < labels.length) {
    refuse(
      'not-finite',
      `needs a group for every observation: ${what} has none at observation ${row + 1}; leave it out`,
    );
  }
}

function isLabel(label: string | number | undefined | null): boolean {
  return label !== '' && label !== undefined && label !== null && !Number.isNaN(label);
}

function checkLevels(term: RandomTerm, found: readonly string[]): void {
  if (term.levels === undefined) return;
  const declared = new Set(term.levels.map(String));
  const present = new Set(found);
  const missing = [...declared].find((level) => !present.has(level));
  if (missing !== undefined) {
    refuse(
      'empty-level',
      `needs observations for every level: random term "${term.name}" has none of "${missing}"; remove that level`,
    );
  }
  const unknown = found.find((level) => !declared.has(level));
  if (unknown !== undefined) {
    refuse(
      'out-of-range',
      `needs declared levels: random term "${term.name}" has "${unknown}", which is not among them`,
    );
  }
}

/** Two terms that share groups and a column ask for one variance twice. */
function checkRepeats(random: readonly RandomTerm[], groupings: readonly Grouping[]): void {
  random.forEach((term, at) => {
    for (const [before, earlier] of random.slice(0, at).entries()) {
      if (sameGroups(groupings[at]!, groupings[before]!) && sharesColumn(term, earlier)) {
        refuse(
          'collinear',
          `needs random terms that differ: "${earlier.name}" and "${term.name}" have the same groups and a column in common; remove one`,
        );
      }
    }
  });
}

function sameGroups(one: Grouping, other: Grouping): boolean {
  return one.levels.length === other.levels.length && one.codes.every((code, row) => code === other.codes[row]);
}

function sharesColumn(one: RandomTerm, other: RandomTerm): boolean {
  const columns = ({ columns, groups }: RandomTerm) => columns?.map(({ values }) => values) ?? [groups.map(() => 1)];
  const theirs = columns(other);
  return columns(one).some((mine) => theirs.some((values) => values.every((value, row) => value === mine[row])));
}

function checkResidual(residual: ResidualStructure, rows: number): void {
  switch (residual.kind) {
    case 'equal':
      return;
    case 'by-group':
      checkResidualGroups(residual.groups, rows);
      return;
    case 'autoregressive':
      checkSeries(residual.series, residual.steps, rows);
      return;
    case 'autoregressive-by-group':
      checkResidualGroups(residual.groups, rows);
      checkSeries(residual.series, residual.steps, rows);
      return;
  }
}

function checkResidualGroups(groups: readonly (string | number)[], rows: number): void {
  checkLabels('the residual', groups, rows);
  const { levels, codes } = grouping(groups);
  if (levels.length < 2) refuse('too-few', 'needs at least 2 residual groups, got 1; use equal residual variance');
  const counts = levels.map(() => 0);
  for (const code of codes) counts[code]! += 1;
  const scarce = counts.findIndex((count) => count < 2);
  if (scarce >= 0) {
    refuse('too-few', `needs at least 2 observations in every residual group, "${levels[scarce]}" has 1; merge groups`);
  }
}

function checkSeries(series: readonly (string | number)[], steps: readonly number[], rows: number): void {
  checkLabels('the residual series', series, rows);
  if (steps.length !== rows) {
    refuse('lengths-differ', `needs a step for every response: there are ${steps.length} for ${rows} responses`);
  }
  const odd = steps.findIndex((step) => !Number.isSafeInteger(step));
  if (odd >= 0) {
    refuse(
      'out-of-range',
      `needs whole numbers as steps, got ${steps[odd]} at observation ${odd + 1}; number the visits`,
    );
  }
  const seen = new Map<string, number>();
  series.forEach((label, row) => {
    const key = `${steps[row]} ${label}`;
    const before = seen.get(key);
    if (before !== undefined) {
      refuse(
        'out-of-range',
        `needs one observation per series and step: observations ${before + 1} and ${row + 1} are both step ${steps[row]} of "${label}"; average them`,
      );
    }
    seen.set(key, row);
  });
  if (new Set(series.map(String)).size === rows) {
    refuse('too-few', 'needs series with at least two observations; use equal residuals instead');
  }
}
