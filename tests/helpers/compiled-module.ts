import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildSync } from 'esbuild';

const root = resolve(import.meta.dirname, '../..');

/**
 * Modules of src as plain JavaScript in a folder of their own, each at its place, and what they share beside them: threads read no
 * TypeScript. What is imported from one is what another imports.
 *
 * @returns the address of the first
 */
export function compiledModule(...sources: readonly string[]): { readonly url: URL; readonly remove: () => void } {
  // Inside node_modules, so that packages are found from there.
  const folder = mkdtempSync(join(root, 'node_modules/.compiled-'));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  buildSync({
    ...{ absWorkingDir: root, entryPoints: [...sources], outbase: '.', outdir: folder },
    // As deep as the rooms of src, for addresses that are taken from where a module stands.
    ...{ bundle: true, splitting: true, chunkNames: 'src/shared/[name]-[hash]', packages: 'external' },
    ...{ format: 'esm', platform: 'node', target: 'es2022', logLevel: 'warning' },
  });
  const url = pathToFileURL(join(folder, (sources[0] ?? '').replace(/\.ts$/, '.js')));
  return { url, remove: () => rmSync(folder, { recursive: true }) };
}
