import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';

/** What the other worker has made under this name by now, else made here and left for it: a plain record, the same in every run of it. */
export function keptInRun<Value>(name: string, make: () => Value): Value {
  const path = join(folderOfRun(), name);
  if (existsSync(path)) return deserialize(readFileSync(path)) as Value;
  const value = make();
  writeFileSync(`${path}.${process.pid}`, serialize(value));
  renameSync(`${path}.${process.pid}`, path);
  return value;
}

/** Gone with the run: elsewhere what is kept would outlive the code that made it. */
function folderOfRun(): string {
  const folder = process.env.FAIRWALL_RUN;
  if (folder === undefined) throw new Error('the folder of this run is not set: see run-folder.mjs');
  return folder;
}
