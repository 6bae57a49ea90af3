import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { transformSync } from 'esbuild';

const root = resolve(import.meta.dirname, '../..');

/** A module of src as plain JavaScript in a folder of its own, with all it imports or starts as a thread: threads read no TypeScript. */
export function compiledModule(source: string): { readonly url: URL; readonly remove: () => void } {
  // Inside node_modules, so that packages are found from there.
  const folder = mkdtempSync(join(root, 'node_modules/.compiled-'));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  const compiled = new Set<string>();
  const compile = (file: string): void => {
    if (compiled.has(file)) return;
    compiled.add(file);
    // The compiler itself takes ten times as long.
    const { code } = transformSync(readFileSync(file, 'utf8'), {
      ...{ loader: 'ts', format: 'esm', target: 'es2022' },
      tsconfigRaw: { compilerOptions: { verbatimModuleSyntax: true } },
    });
    const target = join(folder, relative(root, file).replace(/\.ts$/, '.js'));
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, code);
    for (const [, specifier] of code.matchAll(/(?:from |import |new URL\()["'](\.[^"']+)\.js["']/g)) {
      compile(resolve(dirname(file), `${specifier}.ts`));
    }
  };
  compile(join(root, source));
  const url = pathToFileURL(join(folder, source.replace(/\.ts$/, '.js')));
  return { url, remove: () => rmSync(folder, { recursive: true }) };
}
