import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildSync } from 'esbuild';
import { folderOfRun, keptInRun } from './kept-in-run.js';

const root = resolve(import.meta.dirname, '../..');

/** A module of src as plain JavaScript in a folder of its own, with all the others beside it: threads read no TypeScript. */
export function compiledModule(source: string): { readonly url: URL; readonly remove: () => void } {
  // Inside node_modules, so that packages are found from there.
  const folder = mkdtempSync(join(root, 'node_modules/.compiled-'));
  cpSync(keptInRun('compiled-sources', compiledSources), folder, { recursive: true });
  const url = pathToFileURL(join(folder, source.replace(/\.ts$/, '.js')));
  return { url, remove: () => rmSync(folder, { recursive: true }) };
}

function compiledSources(): string {
  const outdir = mkdtempSync(join(folderOfRun(), 'compiled-'));
  writeFileSync(join(outdir, 'package.json'), '{ "type": "module" }');
  buildSync({
    ...{ absWorkingDir: root, entryPoints: ['src/**/*.ts'], outbase: '.', outdir },
    ...{ format: 'esm', target: 'es2022', logLevel: 'warning' },
    tsconfigRaw: { compilerOptions: { verbatimModuleSyntax: true } },
  });
  return outdir;
}
