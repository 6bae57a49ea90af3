import type { Problem } from '../../trial/index.js';
import { lockFile } from '../folder/table-layouts.js';
import { quoted } from '../quoted.js';

/** `lock (1).json`, `lock-2.json`, `lock copy.json`: what copies of it are called. */
const lockCopy = /^(?:copy of )?lock(?: ?\(\d+\)|[-_ ]?(?:\d+|old|new|copy))?\.json(?:\.txt)?$/i;

/** A plan is sealed once: a second seal beside the first, or one under another name, would let its owner choose. */
export function otherLocks(names: readonly string[]): readonly Problem[] {
  const others = names.filter((name) => name !== lockFile && lockCopy.test(name));
  const found = names.includes(lockFile)
    ? `a second seal beside ${lockFile}`
    : `a name that is nearly ${quoted(lockFile)}`;
  return others.map((file) => ({ file, found, expected: `one seal in a folder, ${lockFile}, and no copy of it` }));
}
