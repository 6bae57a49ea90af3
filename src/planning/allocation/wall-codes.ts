import { integerBelow, randomStream, shuffled } from '../../statistics/index.js';

/** Without vowels, so that no code spells a word, and without letters that look like figures. */
const letters = 'CDFGHJKLMNPQRTVWX';
const figures = '23456789';
/** A stream of its own: whoever knows the codes knows nothing of the arms. */
const streamOfCodes = 1;

/**
 * A code for every wall, by chance and in an order by chance, for readers and labels: it says nothing of the arm, and neither does its
 * place in the list.
 *
 * @example wallCodes(['W01', 'W02'], 20240301).length // 2
 */
export function wallCodes(
  walls: readonly string[],
  seed: number,
): readonly { readonly code: string; readonly wall: string }[] {
  const stream = randomStream(seed, streamOfCodes);
  const pick = (from: string) => from[integerBelow(stream, from.length)] ?? '';
  const taken = new Set<string>();
  const codes = shuffled(stream, walls).map((wall) => {
    let code = '';
    do code = `${pick(letters)}${pick(figures)}${pick(letters)}${pick(figures)}`;
    while (taken.has(code));
    taken.add(code);
    return { code, wall };
  });
  return codes;
}
