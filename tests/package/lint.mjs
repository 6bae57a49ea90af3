// What is wrong with the package as others import it:  npm run lint:package, after a build.
//
// Beside the tests and not among them, for looking through every way of importing takes as long as many of them together.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { publint } from 'publint';

const root = join(import.meta.dirname, '..', '..');
const faces = ['.', './statistics', './tables', './package.json'];
const scratch = mkdtempSync(join(tmpdir(), 'fairwall-lint-'));
try {
  execFileSync('npm', ['pack', '--ignore-scripts', '--silent', '--pack-destination', scratch], { cwd: root });
  const tarball = join(scratch, readdirSync(scratch)[0] ?? '');
  const faults = [...(await faultsOfPackage(tarball)), ...faultsOfTypes(tarball)];
  for (const fault of faults) process.stderr.write(`${fault}\n`);
  process.exitCode = faults.length === 0 ? 0 : 1;
} finally {
  rmSync(scratch, { recursive: true });
}

async function faultsOfPackage(tarball) {
  const { messages } = await publint({ pack: { tarball: new Uint8Array(readFileSync(tarball)).buffer }, strict: true });
  return messages.map((message) => `publint: ${JSON.stringify(message)}`);
}

/** Requiring an ES module is allowed in Node.js 20.19. */
function faultsOfTypes(tarball) {
  const cli = fileURLToPath(new URL('dist/index.js', import.meta.resolve('@arethetypeswrong/cli/package.json')));
  const words = [cli, tarball, '--format', 'json', '--ignore-rules', 'cjs-resolves-to-esm'];
  const { analysis } = JSON.parse(execFileSync(process.execPath, words, { encoding: 'utf8', maxBuffer: 1e8 }));
  const found = Object.keys(analysis.entrypoints);
  const others = found.join() === faces.join() ? [] : [`the faces are ${found.join(', ')} and not ${faces.join(', ')}`];
  const problems = analysis.problems.filter(({ kind }) => kind !== 'CJSResolvesToESM');
  return [...others, ...problems.map((problem) => `types: ${JSON.stringify(problem)}`)];
}
