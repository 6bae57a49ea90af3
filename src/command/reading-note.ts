import { describeNotUsed, type ReadingLedger } from '../trial/index.js';

const mostLines = 12;

/**
 * What a terminal is told of the things that were handed in and not used, and which the plan does not set aside; undefined where there is
 * none.
 *
 * @example readingNote({ tables: [], mended: [], notUsed: [{ kind: 'instrument', instrument: 'mw' }] }) // 'Not used:\n  the instrument "mw" of the plan: no reading of it'
 */
export function readingNote({ notUsed }: ReadingLedger): string | undefined {
  const unsaid = notUsed.filter((one) => !('isListed' in one && one.isListed));
  if (unsaid.length === 0) return undefined;
  const more = unsaid.length - mostLines;
  return [
    'Not used:',
    ...unsaid.slice(0, mostLines).map((one) => `  ${describeNotUsed(one)}`),
    ...(more > 0 ? [`  and ${more} more, named in the report`] : []),
  ].join('\n');
}
