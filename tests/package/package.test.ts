import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { buildOnce } from '../helpers/build-once.js';
import { isWholeSweep } from '../helpers/sweep.js';
import { type ConsumerProject, installInEmptyProject, placeInEmptyProject, run, writeIn } from './consumer-project.js';

const root = join(import.meta.dirname, '..', '..');
const compiler = join(root, 'node_modules', 'typescript', 'bin', 'tsc');
const kernelCompiler = join(root, 'node_modules', '@tslab', 'typescript-for-tslab', 'bin', 'tsc');

const consumer = `
import { formOpinion, readTrial, type Estimate, type Opinion } from 'fairwall';
import { StatisticsError, type Interval } from 'fairwall/statistics';

export async function verdictOf(folder: string): Promise<string> {
  const opinion: Opinion = formOpinion(await readTrial(folder));
  return opinion.verdict.sentence;
}
export const widthOf = (estimate: Estimate): number | undefined => {
  const interval: Interval | undefined = estimate.interval;
  return interval && interval.upper - interval.lower;
};
export const isOurs = (error: unknown): error is StatisticsError => error instanceof StatisticsError;
`;

const consumerOfTables = `
import { readTrial } from 'fairwall';
import { tablesOf } from 'fairwall/tables';

export const wallsIn = async (folder: string): Promise<number> => tablesOf(await readTrial(folder)).walls.numRows();
`;

// Compilers and npm in processes of their own: seconds each, more on a busy machine.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 300_000 });

let project: ConsumerProject;

beforeAll(async () => {
  await buildOnce();
  project = isWholeSweep ? installInEmptyProject() : placeInEmptyProject();
});

afterAll(() => {
  if (project !== undefined) rmSync(dirname(project.folder), { recursive: true, force: true });
});

/**
 * Compiles both consumers with every declaration checked, ours included; answers with the faults that are found, those in the
 * declarations of arquero and of what it stands on passed over.
 */
function faultsUnder(tsc: string, resolution: Record<string, unknown>): readonly string[] {
  const compilerOptions = {
    strict: true,
    noEmit: true,
    skipLibCheck: false,
    target: 'ES2022',
    lib: ['ES2022'],
    types: [],
    ...resolution,
  };
  const files = { 'consumer.ts': consumer, 'of-tables.ts': consumerOfTables };
  for (const [name, code] of Object.entries(files)) writeIn(project.folder, name, code);
  writeIn(project.folder, 'tsconfig.json', JSON.stringify({ compilerOptions, files: Object.keys(files) }));
  const { stdout, stderr, status } = spawnSync(process.execPath, [tsc, '--pretty', 'false'], {
    cwd: project.folder,
    encoding: 'utf8',
  });
  const lines = `${stdout}${stderr}`.split('\n').filter((line) => /^\S/.test(line));
  if (status !== 0 && lines.length === 0) return [`the compiler ended with ${status}`];
  return lines.filter((line) => !/^node_modules\/(arquero|@uwdata\/flechette)\//.test(line));
}

function verdictIn(folder: string): string {
  return JSON.parse(readFileSync(join(folder, 'opinion.json'), 'utf8')).verdict.code;
}

describe('the packed library, installed in an empty project', () => {
  it.runIf(isWholeSweep)('brings none of the tools that it was made with', () => {
    const { devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    const installed = readdirSync(join(project.folder, 'node_modules'));
    expect(installed).toContain('fairwall');
    expect(Object.keys(devDependencies).filter((name) => installed.includes(name))).toEqual([]);
  });

  it.runIf(isWholeSweep)('carries code, declarations, sources and data sets, and nothing else', () => {
    const files = readdirSync(join(project.folder, 'node_modules', 'fairwall')).sort();
    expect(files).toEqual(['LICENSE', 'README.md', 'datasets', 'dist', 'package.json', 'src']);
  });

  it("import('fairwall') and import('fairwall/statistics') give the functions", () => {
    const code = `
      import { formOpinion, readTrial, renderOpinion } from 'fairwall';
      import { StatisticsError } from 'fairwall/statistics';
      console.log([formOpinion, readTrial, renderOpinion, StatisticsError].map((it) => typeof it).join());`;
    expect(run(process.execPath, ['--input-type=module', '-e', code], project.folder)).toBe(
      'function,function,function,function\n',
    );
  });

  it.runIf(isWholeSweep)("require('fairwall') gives the same, as nothing in it waits at its top level", () => {
    const code =
      "console.log(typeof require('fairwall').formOpinion, typeof require('fairwall/statistics').StatisticsError)";
    expect(run(process.execPath, ['--input-type=commonjs', '-e', code], project.folder)).toBe('function function\n');
  });

  it.runIf(isWholeSweep)('npx fairwall opinion judges a bundled trial', () => {
    const trial = join('node_modules', 'fairwall', 'datasets', 'paired-garden-walls');
    run('npx', ['--no-install', 'fairwall', 'opinion', trial, '--out', 'opinion'], project.folder);
    expect(readdirSync(join(project.folder, 'opinion')).sort()).toEqual(['opinion.html', 'opinion.json', 'opinion.md']);
    expect(verdictIn(join(project.folder, 'opinion'))).toBe('worthwhile');
  });
});

// A compiler takes five seconds for each.
describe.runIf(isWholeSweep)('the declarations', () => {
  it.each([
    // Which alone holds the package to its `exports` as Node does.
    ['NodeNext', { module: 'NodeNext', moduleResolution: 'NodeNext' }],
    ['Bundler', { module: 'ESNext', moduleResolution: 'Bundler' }],
  ])('satisfy strict consumers under %s resolution', (_, resolution) => {
    expect(faultsUnder(compiler, resolution)).toEqual([]);
  });

  it('can be read by the TypeScript inside the notebooks’ kernel, the way it looks for modules', () => {
    expect(faultsUnder(kernelCompiler, { module: 'ESNext', moduleResolution: 'Node10' })).toEqual([]);
  });
});

describe('package.json', () => {
  it('pins every dependency exactly', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(
      ([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(String(version)),
    );
    expect(loose).toEqual([]);
  });
});

describe('the checkout itself', () => {
  it.runIf(isWholeSweep)('npx fairwall opinion judges a bundled trial', () => {
    const scratch = mkdtempSync(join(tmpdir(), 'checkout-'));
    const out = join(scratch, 'opinion');
    // With a cache of its own, and without the build that a first use starts: it would pull `dist/` from under other tests.
    const settings = { npm_config_cache: join(scratch, 'cache'), npm_config_ignore_scripts: 'true' };
    run('npx', ['fairwall', 'opinion', join('datasets', 'paired-garden-walls'), '--out', out], root, settings);
    expect(verdictIn(out)).toBe('worthwhile');
    rmSync(scratch, { recursive: true });
  });
});
