// Loads the packed command; see bundle.mjs. It becomes part of `dist/cli.js`.
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import v8 from 'node:v8';
import vm from 'node:vm';

/** Bytecodes that a function runs through before it is compiled to machine code: some 15 times the engine's own number. */
const patience = 1_000_000;

/**
 * What the packed script exports.
 *
 * @param dist address of a file in `dist/`
 *
 * A command runs for a second or two and most of its functions a few times. Compiling them twice, to bytecode and to machine code,
 * took half of that: the bytecode comes from a cache where this engine made it, and machine code is made later.
 */
export function loadPacked(dist) {
  const file = fileURLToPath(new URL('bundle/commands.cjs', dist));
  const cacheFile = `${file}.cache`;
  // Later engines have no such number, and a compiler of less effort in between.
  if (Number(process.versions.node.split('.')[0]) < 22) v8.setFlagsFromString(`--interrupt-budget=${patience}`);
  const script = compiled(file, cacheOf(cacheFile));
  const module = { exports: {} };
  const run = script.runInThisContext();
  run(module.exports, createRequire(file), module, file, dirname(file), pathToFileURL(file).href);
  return {
    exports: module.exports,
    // The engine refuses what another one made, and then compiles as it always would.
    isFromCache: script.cachedDataRejected === false,
    /** Writes down the bytecode of all functions that have run by now. */
    keep: () => writeFileSync(cacheFile, script.createCachedData()),
  };
}

function compiled(file, cachedData) {
  // It holds nothing but ASCII, and need not be decoded.
  const code = readFileSync(file, 'latin1');
  return new vm.Script(`(function (exports, require, module, __filename, __dirname, __url) {${code}\n})`, {
    filename: file,
    cachedData,
  });
}

function cacheOf(cacheFile) {
  try {
    return readFileSync(cacheFile);
  } catch {
    return undefined;
  }
}
