import { describeProblem, type Problems } from '../trial/index.js';
import { problemLines } from './problem-lines.js';

/** Problems printed before the rest are only counted. */
const mostLines = 20;

/** All problems of a folder for a terminal: one line a cause and at most 20 of them, or with `all` one line a row. */
export function problemText(problems: Problems, all: boolean): string {
  if (all) return problems.map(describeProblem).join('\n');
  const lines = problemLines(problems);
  const more = lines.length - mostLines;
  return [
    ...lines.slice(0, mostLines),
    ...(more > 0 ? [`and ${more} more problems; --all prints every row`] : []),
  ].join('\n');
}
