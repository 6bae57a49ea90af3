import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { renderOpinion } from '../../src/opinion/render-opinion.js';
import { hostileNames, opinionFixtures } from '../helpers/opinion-fixture.js';
import { findChromium, howToGetChromium } from './find-chromium.js';

interface Measured {
  readonly overflowing: readonly string[];
  readonly clipped: readonly string[];
  readonly overlapping: readonly string[];
  readonly withoutAlternative: number;
  readonly charts: number;
  readonly headings: readonly number[];
  readonly scripts: number;
  readonly images: number;
}

const executablePath = findChromium();
const inPage = readFileSync(join(import.meta.dirname, 'in-page.js'), 'utf8');
/** A chart is one picture with one alternative text, which is looked at; what it is drawn of is not. */
const runAxe = "axe.run({ exclude: ['svg *'] }, { resultTypes: ['violations'] })";
/** A browser on a busy machine takes its time. */
const patience = { timeout: 60_000 };
const folder = mkdtempSync(join(tmpdir(), 'fairwall-report-'));
let browser: Browser | undefined;

beforeAll(async () => {
  if (executablePath === undefined) {
    if (process.env.CI !== undefined) throw new Error(howToGetChromium);
    return;
  }
  browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--no-first-run'],
  });
  for (const [name, opinion] of Object.entries(opinionFixtures)) {
    writeFileSync(join(folder, `${name}.html`), (await renderOpinion(opinion)).html);
  }
}, 60_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

beforeEach((context) => {
  if (browser === undefined) context.skip(howToGetChromium);
});

/** Opens a report, and gathers whatever it should not do. */
async function open(name: string, width: number, height: number): Promise<{ page: Page; complaints: string[] }> {
  if (browser === undefined) throw new Error(howToGetChromium);
  const page = await browser.newPage({ viewport: { width, height } });
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(`console: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`));
  page.on('dialog', (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    if (!/^(data|file):/.test(request.url())) complaints.push(`request: ${request.url()}`);
  });
  await page.goto(pathToFileURL(join(folder, `${name}.html`)).href);
  return { page, complaints };
}

async function measure(page: Page): Promise<Measured> {
  await page.evaluate(inPage);
  return (await page.evaluate('measurePage()')) as Measured;
}

function expectSound(measured: Measured): void {
  expect(measured.overflowing).toEqual([]);
  expect(measured.clipped).toEqual([]);
  expect(measured.overlapping).toEqual([]);
  expect(measured.withoutAlternative).toBe(0);
  expect(measured.charts).toBeGreaterThan(1);
  expect(measured.scripts).toBe(0);
  expect(measured.images).toBe(0);
}

/** Levels go down one at a time; there is one h1, and it is the first. */
function expectHeadingsInOrder(levels: readonly number[]): void {
  expect(levels[0]).toBe(1);
  expect(levels.filter((level) => level === 1)).toHaveLength(1);
  for (const [index, level] of levels.slice(1).entries()) expect(level).toBeLessThanOrEqual((levels[index] ?? 0) + 1);
}

describe.each(Object.keys(opinionFixtures))('the report %s in a browser', patience, (name) => {
  it.each([
    ['a desktop', 1280, 900],
    ['a phone', 390, 844],
    ['a narrow phone', 360, 640],
  ])('fits %s: nothing overflows, overlaps, is clipped, complains or is fetched', async (_, width, height) => {
    const { page, complaints } = await open(name, width, height);
    const measured = await measure(page);
    await page.close();
    expectSound(measured);
    expectHeadingsInOrder(measured.headings);
    expect(complaints).toEqual([]);
  });

  it('fits a sheet of A4, on few sheets, with the wide charts', async () => {
    // 170 mm between the margins.
    const { page, complaints } = await open(name, 643, 971);
    await page.emulateMedia({ media: 'print' });
    const measured = await measure(page);
    const narrow = await page.locator('.narrow:visible').count();
    const pdf = await page.pdf({ preferCSSPageSize: true });
    await page.close();
    expectSound(measured);
    expect(narrow).toBe(0);
    const sheets = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
    expect(sheets).toBeGreaterThan(3);
    expect(sheets).toBeLessThanOrEqual(name === 'hostile' ? 20 : 11);
    expect(complaints).toEqual([]);
  });

  it('gives axe-core nothing to object to', async () => {
    const { page } = await open(name, 390, 844);
    await page.evaluate(axe.source);
    const { violations } = (await page.evaluate(runAxe)) as axe.AxeResults;
    await page.close();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200)}`)).toEqual([]);
  });
});

describe('a wall named as a script', patience, () => {
  it('is shown as it is named, in the table and in the charts, and does nothing', async () => {
    const { page, complaints } = await open('hostile', 1280, 900);
    const cells = await page.locator('tbody th').allTextContents();
    const labels = await page.locator('svg text').allTextContents();
    await page.close();
    expect(cells).toContain(hostileNames[0]);
    expect(labels).toContain(`1 ${hostileNames[0]}`);
    expect(complaints).toEqual([]);
  });

  it('would be caught if it were not escaped', async () => {
    const page = readFileSync(join(folder, 'hostile.html'), 'utf8');
    const careless = page.replace('&lt;script&gt;alert(1)&lt;/script&gt;', '<script>alert(1)</script>');
    expect(careless).not.toBe(page);
    writeFileSync(join(folder, 'careless.html'), careless);
    const { page: opened, complaints } = await open('careless', 1280, 900);
    const measured = await measure(opened);
    await opened.close();
    expect(measured.scripts).toBe(1);
    // The page's own policy keeps even this script from running, and the browser says so.
    expect(complaints.join()).toContain('Content Security Policy');
    expect(complaints.join()).not.toContain('dialog');
  });
});
