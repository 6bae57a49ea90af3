import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { kernelCommand } from './kernel-command.mjs';
import { linkPackage } from './link-package.mjs';
import { readNotebook, tidyNotebook, toText, writeNotebook } from './notebook-file.mjs';

/*
 * Runs every notebook under Jupyter, in the TypeScript kernel of this checkout, on the built package.
 *
 *   npm run notebooks               runs them and stores what came out
 *   npm run notebooks -- --check    fails when something else comes out than is stored, and stores nothing
 *   npm run notebooks -- 00 08      those whose names begin so
 */

const kernels = join(import.meta.dirname, '..', 'node_modules', '.cache', 'fairwall-jupyter');
const asked = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const notebooks = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith('.ipynb'))
  .filter((file) => asked.length === 0 || asked.some((word) => file.startsWith(word)));
const jupyterPath = [kernels, process.env.JUPYTER_PATH].filter(Boolean).join(delimiter);

function say(text) {
  process.stdout.write(`${text}\n`);
}

function fail(text) {
  process.stderr.write(`${text}\n`);
  process.exit(1);
}

/** Where Jupyter looks for kernels when `JUPYTER_PATH` names the folder above `kernels`. */
function writeKernelFile() {
  const folder = join(kernels, 'kernels', 'tslab');
  const kernel = {
    argv: [...kernelCommand(), '{connection_file}'],
    display_name: 'TypeScript',
    language: 'typescript',
  };
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'kernel.json'), `${JSON.stringify(kernel, null, 2)}\n`);
}

/** Quiet unless it fails. */
function jupyter(...words) {
  return spawnSync('jupyter', words, { encoding: 'utf8', env: { ...process.env, JUPYTER_PATH: jupyterPath } });
}

function execute(file, into) {
  const options = ['kernel_name=tslab', 'record_timing=False', 'allow_errors=True'];
  // A kernel is slow to answer on a machine that is busy with other things.
  options.push('timeout=300', 'startup_timeout=300');
  const settings = options.map((option) => `--ExecutePreprocessor.${option}`);
  const run = jupyter('nbconvert', '--to', 'notebook', '--execute', ...settings, '--output-dir', into, file);
  if (run.status !== 0) fail(`${file} does not run:\n${run.stderr}`);
}

/** The kernel reports an error as text on standard error, which Jupyter keeps as an output like any other. */
function failOnComplaint(name, notebook) {
  for (const cell of notebook.cells.filter(({ cell_type }) => cell_type === 'code')) {
    const complaint = cell.outputs.find((output) => output.name === 'stderr' || output.output_type === 'error');
    if (complaint)
      fail(`${name}, in the cell\n\n${toText(cell.source)}\n\n${toText(complaint.text ?? complaint.evalue)}`);
  }
}

function runAll(check) {
  const scratch = mkdtempSync(join(tmpdir(), 'notebooks-'));
  const changed = notebooks.filter((name) => {
    const stored = join(import.meta.dirname, name);
    const executed = join(scratch, name);
    execute(stored, scratch);
    failOnComplaint(name, readNotebook(executed));
    writeNotebook(executed, tidyNotebook(readNotebook(executed)));
    const same = readFileSync(stored, 'utf8') === readFileSync(executed, 'utf8');
    if (!same && !check) cpSync(executed, stored);
    say(`${name}: ${same ? 'as stored' : check ? 'differs from what is stored' : 'stored anew'}`);
    return !same;
  });
  rmSync(scratch, { recursive: true, force: true });
  if (check && changed.length > 0)
    fail(`${changed.length} of ${notebooks.length} notebooks no longer give what is stored`);
}

writeKernelFile();
linkPackage();
if (jupyter('nbconvert', '--version').status !== 0) {
  fail(
    'Jupyter is missing: install jupyter-client and jupyter-nbconvert (apt-get install jupyter-client jupyter-nbconvert, or pip install nbconvert)',
  );
}
runAll(process.argv.includes('--check'));
