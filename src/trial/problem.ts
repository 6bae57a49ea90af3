/**
 * One thing wrong with the input, as a value that the user can act on.
 * Rows are counted as a spreadsheet counts them: the header is row 1.
 */
export interface Problem {
  readonly file: string;
  readonly row?: number;
  readonly column?: string;
  readonly found: string;
  readonly expected: string;
  /** The nearest valid name, where one is close. */
  readonly suggestion?: string;
}

/** A list that holds at least one problem. */
export type Problems = readonly [Problem, ...Problem[]];

/**
 * One line a problem, whatever characters the folder holds:
 * `walls.csv, row 3, column arm: found "contol", expected treated or control; did you mean "control"?`
 *
 * @example describeProblem({ file: 'walls.csv', row: 3, column: 'arm', found: '"x"', expected: 'an arm' }) // 'walls.csv, row 3, column arm: found "x", expected an arm'
 */
export function describeProblem(problem: Problem): string {
  const { file, row, column } = problem;
  // Of a JSON text a row is a line, and what stands for a column is a key, or a number of characters.
  const isJson = file.endsWith('.json');
  const columnWord = isJson && column !== undefined && !/^\d+$/.test(column) ? 'key' : 'column';
  const place = [
    file,
    ...(row === undefined ? [] : [`${isJson ? 'line' : 'row'} ${row}`]),
    ...(column === undefined ? [] : [`${columnWord} ${column}`]),
  ].join(', ');
  const suggestion = problem.suggestion === undefined ? '' : `; did you mean "${problem.suggestion}"?`;
  const line = `${place}: found ${problem.found}, expected ${problem.expected}${suggestion}`;
  return line.replace(/[\p{Cc}\p{Zl}\p{Zp}]/gu, ' ');
}

/** Thrown once, with everything that is wrong with a trial folder. */
export class TrialFolderError extends Error {
  override readonly name = 'TrialFolderError' as const;
  readonly problems: Problems;

  constructor(problems: Problems) {
    super(problems.map(describeProblem).join('\n'));
    this.problems = problems;
  }
}

/**
 * Whether a thrown value is a `TrialFolderError`.
 *
 * @example isTrialFolderError(new RangeError('not one of ours')) // false
 */
export function isTrialFolderError(value: unknown): value is TrialFolderError {
  return value instanceof TrialFolderError;
}
