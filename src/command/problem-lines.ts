import { describeProblem, type Problem } from '../trial/index.js';

/**
 * Problems as lines for a terminal, one a cause: the same fault in many rows of a column is one line with the number of rows and the first
 * of them.
 *
 * @example problemLines([2, 5].map((row) => ({ file: 'a.csv', row, column: 'b', found: '"x"', expected: 'y' }))) // ['a.csv, column b: found "x" in 2 rows (first: row 2), expected y']
 */
export function problemLines(problems: readonly Problem[]): readonly string[] {
  const causes = new Map<string, { readonly problem: Problem; rows: number }>();
  for (const problem of problems) {
    const { file, column, found, expected, suggestion, row } = problem;
    // Without a column or a row there is nothing that rows could have in common.
    const key = JSON.stringify(
      row === undefined || column === undefined ? [causes.size] : [file, column, found, expected, suggestion],
    );
    const cause = causes.get(key);
    if (cause === undefined) causes.set(key, { problem, rows: 1 });
    else cause.rows++;
  }
  return [...causes.values()].map(({ problem, rows }) => {
    if (rows === 1) return describeProblem(problem);
    const { row, ...others } = problem;
    return describeProblem({ ...others, found: `${problem.found} in ${rows} rows (first: row ${row})` });
  });
}
