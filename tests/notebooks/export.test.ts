import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { readNotebook, toText } from '../../notebooks/notebook-file.mjs';
import { findChromium } from '../browser/find-chromium.js';
import { isWholeSweep } from '../helpers/sweep.js';

interface Output {
  readonly data?: Readonly<Record<string, string | readonly string[]>>;
}
interface Cell {
  readonly cell_type: string;
  readonly source: readonly string[];
  readonly outputs?: readonly Output[];
}

const folder = join(import.meta.dirname, '..', '..', 'notebooks');
const names = readdirSync(folder).filter((file) => file.endsWith('.ipynb'));
const cellsOf = (name: string): Cell[] => readNotebook(join(folder, name)).cells;
const outputsOf = (name: string) => cellsOf(name).flatMap(({ outputs = [] }) => outputs);
const htmlOf = (name: string) => outputsOf(name).flatMap(({ data = {} }) => toText(data['text/html'] ?? ''));
const picturesOf = (name: string) => htmlOf(name).filter((html) => html.startsWith('<img '));
const drawn = names.filter((name) => cellsOf(name).some(({ source }) => /await render/.test(toText(source))));

describe.each(names)('%s as stored', (name) => {
  it('shows tables as tables and holds no drawing that an export strips', () => {
    const types = new Set(outputsOf(name).flatMap(({ data = {} }) => Object.keys(data)));
    expect([...types]).toEqual(['text/html']);
    expect(htmlOf(name).some((html) => html.startsWith('<table>'))).toBe(true);
    expect(htmlOf(name).filter((html) => html.startsWith('<svg'))).toEqual([]);
  });
});

it('notebooks draw', () => {
  expect(drawn.length).toBeGreaterThanOrEqual(7);
  for (const name of drawn) expect(picturesOf(name).length, name).toBeGreaterThan(0);
});

const isThere = (process.env.PATH ?? '').split(delimiter).some((path) => existsSync(join(path, 'jupyter-nbconvert')));
const executablePath = findChromium();
const scratch = mkdtempSync(join(tmpdir(), 'export-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

describe.runIf(isWholeSweep && isThere && executablePath !== undefined)('jupyter nbconvert --to html', () => {
  it('keeps every picture, with ink on it, and every table', { timeout: 240_000 }, async () => {
    const files = drawn.map((name) => join(folder, name));
    const run = spawnSync('jupyter', ['nbconvert', '--to', 'html', '--output-dir', scratch, ...files]);
    expect(run.status, String(run.stderr)).toBe(0);
    const browser = await chromium.launch({
      ...(executablePath && { executablePath }),
      args: ['--no-sandbox', '--disable-gpu'],
    });
    try {
      for (const name of drawn) {
        const file = join(scratch, name.replace('.ipynb', '.html'));
        const page = await browser.newPage();
        // The page asks for scripts of the network, which it does not need to show what is in it.
        await page.route(/^https?:/, (route) => route.abort());
        await page.goto(pathToFileURL(file).href, { waitUntil: 'domcontentloaded' });
        const pictures = await page.locator('.jp-OutputArea-output img').all();
        expect(pictures, name).toHaveLength(picturesOf(name).length);
        for (const picture of pictures) {
          const { channels } = await sharp(await picture.screenshot()).stats();
          expect(Math.max(...channels.map(({ stdev }) => stdev)), `${name}: ink`).toBeGreaterThan(5);
        }
        const tables = htmlOf(name).filter((html) => html.startsWith('<table>'));
        expect(await page.locator('.jp-OutputArea-output table').count(), name).toBe(tables.length);
        await page.close();
      }
    } finally {
      await browser.close();
    }
  });
});
