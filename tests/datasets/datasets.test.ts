import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Opinion } from '../../src/index.js';
import { reportDocument } from '../../src/report/report-document.js';
import { toMarkdown } from '../../src/report/writers/to-markdown.js';
import { bundledOpinion, bundledTrials as names } from '../helpers/bundled-opinions.js';

const folder = join(import.meta.dirname, '..', '..', 'datasets');

/** What a README predicts on a line of its own, for instance `Verdict: worthwhile`. */
function predicted(name: string, what: string): string | undefined {
  const text = readFileSync(join(folder, name, 'README.md'), 'utf8');
  return new RegExp(`^${what}: (.+)$`, 'm').exec(text)?.[1];
}

function contents(of: string): Record<string, string> {
  const files = readdirSync(of).filter((file) => /\.(csv|json)$/.test(file));
  return Object.fromEntries(files.map((file) => [file, readFileSync(join(of, file), 'utf8')]));
}

/** Runs every script as if by itself, in one process. */
const madeHere = mkdtempSync(join(tmpdir(), 'datasets-'));
const makeAll = `
  for (const name of ${JSON.stringify(names)}) {
    process.argv[2] = ${JSON.stringify(madeHere)} + '/' + name;
    await import(${JSON.stringify(pathToFileURL(folder).href)} + '/' + name + '/make.mjs');
  }`;

beforeAll(() => {
  for (const name of names) mkdirSync(join(madeHere, name));
  execFileSync(process.execPath, ['--input-type=module', '-e', makeAll, 'make']);
}, 120_000);

afterAll(() => rmSync(madeHere, { recursive: true, force: true }));

it('finds the data sets', () => {
  expect(names).toEqual(
    expect.arrayContaining(['paired-garden-walls', 'season-dries-both', 'treated-walls-only', 'two-walls']),
  );
});

describe.each(names)('datasets/%s', (name) => {
  let opinion: Opinion;

  beforeAll(async () => {
    opinion = await bundledOpinion(name);
  });

  it('is what its script makes, byte for byte', () => {
    expect(contents(join(madeHere, name))).toEqual(contents(join(folder, name)));
  });

  it('gives the verdict that its README predicts', () => {
    const { verdict } = opinion;
    expect({ verdict: verdict.code, evidence: verdict.evidence }).toEqual({
      verdict: predicted(name, 'Verdict'),
      evidence: predicted(name, 'Evidence'),
    });
  });

  it('has the weaknesses that its README predicts, beside minor ones', () => {
    const { weaknesses } = opinion.verdict;
    const serious = weaknesses.filter(({ seriousness }) => seriousness !== 'minor').map(({ code }) => code);
    expect(serious.sort().join(', ') || 'none').toBe(
      predicted(name, 'Serious weaknesses')?.split(', ').sort().join(', '),
    );
  });

  it('is reported in words that both sides can quote, and without names of keys', () => {
    // What the folder would have to say is said in the names of its columns.
    const text = toMarkdown(reportDocument(opinion)).replaceAll(
      /Needed: [^|]*?(\||\((?:towards|away from|either))/g,
      '$1',
    );
    expect(
      text.match(/.{20}\b(prove[sdn]?|proofs?|significan\w*|confirm\w*|NaN|undefined|\w+\\?_(mm|pct|g))\b.{20}/gi),
    ).toBeNull();
  });

  it('has every threat complete: facts, a direction, what would change the verdict and what avoids it', () => {
    expect(opinion.threats.length).toBeGreaterThan(15);
    for (const { code, text, tipping, remedy, finding, needs } of opinion.threats) {
      for (const sentence of [text, tipping, remedy]) expect(sentence, code).toMatch(/^\S.*\S\.$/);
      expect(needs !== undefined, code).toBe(finding === 'could-not-be-looked-for');
    }
  });

  it('stands in the table of data sets with its verdict', () => {
    const table = readFileSync(join(folder, 'README.md'), 'utf8');
    const row = table.split('\n').find((line) => line.startsWith(`| [${name}]`));
    expect(row).toContain(`\`${predicted(name, 'Verdict')}\``);
  });
});
