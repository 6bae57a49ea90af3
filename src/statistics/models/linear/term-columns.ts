import type { DesignColumn } from './design-column.js';
import type { DesignTerm, FactorTerm } from './design-term.js';

/** The columns that a term contributes to a design of so many rows. */
export function termColumns(term: DesignTerm, rows: number): DesignColumn[] {
  switch (term.kind) {
    case 'intercept':
      return [{ name: 'intercept', values: new Array<number>(rows).fill(1) }];
    case 'covariate':
      return [{ name: term.name, values: term.values }];
    case 'factor':
      return columnLevels(term).map((level) => ({
        name: indicatorName(term.name, level),
        values: term.values.map((value) => (value === level ? 1 : 0)),
      }));
    case 'interaction': {
      const second = termColumns(term.second, rows);
      return termColumns(term.first, rows).flatMap((a) => second.map((b) => product(a, b)));
    }
  }
}

/** The levels of a factor that have a column. */
export function columnLevels(term: FactorTerm): readonly string[] {
  return term.levels.filter((level) => level !== term.reference);
}

export function indicatorName(factor: string, level: string): string {
  return `${factor}: ${level}`;
}

export function interactionName(first: string, second: string): string {
  return `${first} × ${second}`;
}

function product(a: DesignColumn, b: DesignColumn): DesignColumn {
  return {
    name: interactionName(a.name, b.name),
    values: a.values.map((value, row) => value * (b.values[row] ?? 0)),
  };
}
