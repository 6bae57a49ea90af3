import { join } from 'node:path';

/** In the folder of the run: where the JavaScript of each TypeScript file of the repository lies, at the same path. */
export function compiledFolder() {
  return join(process.env.FAIRWALL_RUN ?? '', 'compiled');
}
