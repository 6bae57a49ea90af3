import { createHash } from 'node:crypto';

export const lockFormat = 'fairwall-lock/1';

/**
 * SHA-256 of a text that does not know how the file was laid out: JSON without spaces, the keys of every object in the order of their
 * letters, lists in their own order. Anyone can check it: `jq -cjS 'del(.sha256)' lock.json | sha256sum`.
 *
 * @param content of `lock.json`, all but the seal itself
 * @returns 64 lower-case hexadecimal digits
 * @example sealOfPlan({ b: 1, a: [2] }) === sealOfPlan({ a: [2], b: 1 }) // true
 */
export function sealOfPlan(content: unknown): string {
  return createHash('sha256').update(inOrder(content)).digest('hex');
}

function inOrder(content: unknown): string {
  return JSON.stringify(content, (_key, inner: unknown) => {
    if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) return inner;
    return Object.fromEntries(Object.entries(inner).sort(([one], [other]) => (one < other ? -1 : 1)));
  });
}
