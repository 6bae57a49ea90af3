import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Writes the files of a trial folder. The folder is the first argument of the command line, or that of the script itself.
 * `files` maps a file name to its text, `protocol` becomes `protocol.json`.
 */
export function writeTrial(scriptFolder, protocol, files) {
  const folder = process.argv[2] ?? scriptFolder;
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'protocol.json'), `${JSON.stringify(protocol, null, 2)}\n`);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
}
