import { createHash } from 'node:crypto';
import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { formOpinion } from '../../src/opinion/index.js';
import { seedOfRecords } from '../../src/opinion/seed-of-records.js';
import { readTrial } from '../../src/records/index.js';

const dataset = join(import.meta.dirname, '../../datasets/windward-and-sheltered');

/** The trial after every table, or the protocol, has been written otherwise. */
async function rewritten(table: (csv: string) => string, protocol: (json: string) => string = (json) => json) {
  const folder = await mkdtemp(join(tmpdir(), 'rewritten-'));
  try {
    await cp(dataset, folder, { recursive: true });
    for (const name of await readdir(folder)) {
      const change = name.endsWith('.csv') ? table : name === 'protocol.json' ? protocol : undefined;
      const path = join(folder, name);
      if (change !== undefined) await writeFile(path, change(await readFile(path, 'utf8')));
    }
    return await readTrial(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function reversed(csv: string): string {
  const [header = '', ...rows] = csv.trimEnd().split('\n');
  return `${[header, ...rows.reverse()].join('\n')}\n`;
}

const reordered = (json: string) =>
  JSON.stringify(Object.fromEntries(Object.entries(JSON.parse(json) as object).reverse()));

it.each<[string, (csv: string) => string, ((json: string) => string)?]>([
  ['a blank line', (csv) => `${csv}\n`],
  ['a byte-order mark', (csv) => `\uFEFF${csv}`],
  ['other line ends', (csv) => csv.replaceAll('\n', '\r\n')],
  ['rows in another order', reversed],
  ['keys in another order', (csv) => csv, reordered],
  ['another title', (csv) => csv, (json) => json.replace(/"title": "/, '$&On ')],
])('%s: the same seed, though the fingerprint is another', async (_, table, protocol) => {
  const [plain, other] = await Promise.all([readTrial(dataset), rewritten(table, protocol)]);
  expect(other.source.fingerprint).not.toBe(plain.source.fingerprint);
  expect(seedOfRecords(other)).toBe(seedOfRecords(plain));
});

it.each<[string, (csv: string) => string, ((json: string) => string)?]>([
  ['another mass', (csv) => csv.replace(/\.\d\d,/, '.00,')],
  ['another level', (csv) => csv, (json) => json.replace('0.95', '0.9')],
])('%s: another seed', async (_, table, protocol) => {
  const [plain, other] = await Promise.all([readTrial(dataset), rewritten(table, protocol)]);
  expect(seedOfRecords(other)).not.toBe(seedOfRecords(plain));
});

it('rows in another order draw the same numbers in every analysis', async () => {
  const numbersOf = (trial: Parameters<typeof formOpinion>[0]) =>
    formOpinion(trial).analyses.map((answer) =>
      answer.kind === 'estimated'
        ? [answer.estimate.id, answer.estimate.pValue, answer.estimate.interval]
        : answer.kind,
    );
  const [plain, other] = [numbersOf(await readTrial(dataset)), numbersOf(await rewritten(reversed))];
  const rounded = (value: unknown) =>
    JSON.stringify(value, (_, inner) => (typeof inner === 'number' ? inner.toPrecision(9) : inner));
  expect(rounded(other)).toBe(rounded(plain));
});

const noNumbers = new Set(['origin', 'title', 'claim', 'disclosures', 'marginSource', 'source', 'by', 'note', 'why']);

/** The form as it is defined: keys in the order of their letters, without words that no number comes from. */
function plainForm(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(plainForm).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const kept = Object.entries(value)
    .filter(([key, inner]) => inner !== undefined && !noNumbers.has(key))
    .sort(([one], [other]) => (one < other ? -1 : 1));
  return `{${kept.map(([key, inner]) => `${JSON.stringify(key)}:${plainForm(inner)}`).join(',')}}`;
}

it('is that of the form as defined, put together here', async () => {
  const trial = await readTrial(dataset);
  const { walls, stations, readings, cores, climate, beliefs, events, batches = [], checks = [] } = trial;
  expect(trial.salts ?? trial.injections ?? trial.electrical).toBeUndefined();
  const tables: readonly (readonly object[])[] = [
    ...[walls, stations, readings, cores, climate],
    ...[beliefs, events, batches, checks],
  ];
  const text = [
    plainForm(trial.protocol),
    ...tables.flatMap((rows) => [
      '\n\n',
      ...rows
        .map(plainForm)
        .sort()
        .map((row) => `${row}\n`),
    ]),
  ].join('');
  expect(seedOfRecords(trial)).toBe(createHash('sha256').update(text).digest().readUInt32BE(0));
});
