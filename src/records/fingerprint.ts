import { createHash } from 'node:crypto';

/**
 * One SHA-256 for a whole trial folder: of the lines `<SHA-256 of the file's bytes>  <file name>\n`,
 * sorted by file name byte by byte, over the files of the contract that were read (a workbook counts as its one file).
 *
 * `lock.json` is one of them: it moves the threats and the verdict as locked, and one fingerprint stands for one opinion.
 *
 * Anyone can check it: `LC_ALL=C sha256sum cores.csv protocol.json walls.csv | sha256sum`, names in that order.
 *
 * @param files their bytes, or the SHA-256 of a file too large to be held.
 * @returns 64 lower-case hexadecimal digits.
 * @example fingerprint(new Map([['walls.csv', 'wall,arm\n']])).slice(0, 8) // '0d403e53'
 */
export function fingerprint(files: ReadonlyMap<string, Uint8Array | string>): string {
  const names = [...files.keys()].sort((a, b) => Buffer.compare(Buffer.from(a), Buffer.from(b)));
  const lines = names.map((name) => `${digestOf(files.get(name) ?? new Uint8Array())}  ${name}\n`);
  return sha256(Buffer.from(lines.join('')));
}

function digestOf(content: Uint8Array | string): string {
  return typeof content === 'string' ? content : sha256(content);
}

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
