import { readdirSync, readFileSync } from 'node:fs';
import { register } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isMainThread } from 'node:worker_threads';
import { compiledFolder } from './compiled-folder.mjs';

/*
 * Loaded before a worker of the tests: whoever imports TypeScript of this repository is given what was compiled of it, under the address
 * of its source. It registers itself, and answers from a thread of its own.
 */

if (isMainThread) register(import.meta.url);

const root = join(import.meta.dirname, '..', '..');
/** Compiled files by the addresses of their sources. */
const compiled = new Map(isMainThread ? [] : readdirSync(compiledFolder(), { recursive: true, encoding: 'utf8' }).map(placed));

function placed(file) {
  return [pathToFileURL(join(root, file.replace(/\.js$/, '.ts'))).href, join(compiledFolder(), file)];
}

/** An import names the JavaScript that a source becomes. */
export function resolve(specifier, context, next) {
  if (specifier.startsWith('.')) {
    const url = new URL(specifier.replace(/\.js$/, '.ts'), context.parentURL).href;
    if (compiled.has(url)) return { url, format: 'module', shortCircuit: true };
  }
  return next(specifier, context);
}

/** The runner asks for a test file by its address and the time. */
export function load(url, context, next) {
  const file = compiled.get(url.replace(/\?.*$/, ''));
  return file === undefined ? next(url, context) : { format: 'module', source: readFileSync(file), shortCircuit: true };
}
