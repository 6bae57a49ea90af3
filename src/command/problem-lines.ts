import { valuesBy } from '../plain/group-by.js';
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
    // Without a row there is nothing that rows could have in common.
    const key = JSON.stringify(row === undefined ? [causes.size] : [file, column, found, expected, suggestion]);
    const cause = causes.get(key);
    if (cause === undefined) causes.set(key, { problem, rows: 1 });
    else cause.rows++;
  }
  return alike([...causes.values()]).map(({ problem, rows, further }) => {
    if (rows === 1) return describeProblem(problem);
    const { row, ...others } = problem;
    return describeProblem({ ...others, found: `${problem.found}${further} in ${rows} rows (first: row ${row})` });
  });
}

interface Cause {
  readonly problem: Problem;
  readonly rows: number;
}

/** So many different cells of a column are named one by one. */
const mostOneByOne = 3;

/** Where many different cells of one column fall short of the same thing, they are one line: the first two of them, and how many more. */
function alike(causes: readonly Cause[]): readonly (Cause & { readonly further: string })[] {
  const keyOf = ([index, { problem }]: readonly [number, Cause]) => {
    const { file, row, column, expected } = problem;
    return JSON.stringify(row === undefined || column === undefined ? [index] : [file, column, expected]);
  };
  return [...valuesBy(causes.entries(), keyOf, ([, cause]) => cause).values()].flatMap((group) => {
    const [first, second] = group;
    if (first === undefined || second === undefined || group.length <= mostOneByOne)
      return group.map((cause) => ({ ...cause, further: '' }));
    const { suggestion: _, ...problem } = first.problem;
    const rows = group.reduce((sum, cause) => sum + cause.rows, 0);
    return [{ problem, rows, further: `, ${second.problem.found} and ${group.length - 2} more like them` }];
  });
}
