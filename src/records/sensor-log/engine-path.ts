import { symlink } from 'node:fs/promises';
import { join, resolve } from 'node:path';

/**
 * A path by which the engine reads this file and no other. To the engine, `*`, `?` and `[` in a path are patterns that prefer the folders
 * beside: a trial in `Trial [1]` would be read from `Trial 1`. So the engine is given a link of a plain name in a folder of its own.
 *
 * @param scratch that folder; signs in its own name are written so that they match themselves.
 */
export async function enginePath(path: string, scratch: string): Promise<string> {
  const link = join(scratch, 'log');
  try {
    await symlink(resolve(path), link);
    return withoutPatterns(link);
  } catch {
    // Some systems let few people make links.
    return withoutPatterns(resolve(path));
  }
}

/** @example withoutPatterns('Trial [1]') // 'Trial [[]1]' */
export function withoutPatterns(path: string): string {
  return path.replace(/[*?[]/g, '[$&]');
}
