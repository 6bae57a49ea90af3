import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it, type TestContext } from 'vitest';
import { checkDocument } from '../../src/checking/report/check-document.js';
import { besideOf } from '../../src/command/beside-of.js';
import { recordingSheets } from '../../src/forms/recording-sheets.js';
import { readTrial } from '../../src/records/index.js';
import { renderOpinion } from '../../src/report/render-opinion.js';
import { toHtml } from '../../src/report/writers/to-html.js';
import { bundledOpinion, bundledTrial, bundledTrials } from '../helpers/bundled-opinions.js';
import { hostileNames, opinionFixtures } from '../helpers/opinion-fixture.js';
import { isWholeSweep, swept } from '../helpers/sweep.js';
import { findChromium, howToGetChromium } from './find-chromium.js';
import { faultsOf, hasPdftotext, howToGetPdftotext, printedSheets, type Sheet } from './printed-pages.js';

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
/**
 * A chart is one picture with one alternative text, which is looked at; what it is drawn of is not, and is taken away first:
 * axe-core takes ten times as long where it is there and excluded. A title or description inside stays.
 */
const runAxe = `(() => {
  for (const drawn of document.querySelectorAll('svg *')) if (!/^(title|desc)$/i.test(drawn.tagName)) drawn.remove();
  return axe.run(document, { resultTypes: ['violations'] });
})()`;
const sizes = swept(
  [
    [360, 640],
    [390, 844],
    [1280, 900],
  ] as const,
  ([width]) => width !== 390,
);
/** The one with everything that may go wrong is looked at always. */
const reports = swept(Object.keys(opinionFixtures), (name) => name === 'hostile');
/** Trials with one instrument and with several, with cores, with few walls and with many. */
const checked = swept(['who-read-the-meter', 'salty-chapel-walls', 'two-walls'], (_, at) => at === 1);
const heights_mm = [150, 300, 600, 900, 1200];
const sheets = {
  'sheets-for-cores-and-meter': {
    title: 'Eight <cellar> walls',
    cores: true,
    meter: 'microwave',
    walls: 8,
    heights_mm,
  },
  'sheets-for-many-walls': { title: '', cores: false, meter: 'resistance', walls: 31, heights_mm: [1500] },
} as const;
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
  for (const [name, opinion] of Object.entries(opinionFixtures))
    if (reports.includes(name)) writeFileSync(join(folder, `${name}.html`), (await renderOpinion(opinion)).html);
  for (const name of checked) {
    const trial = await readTrial(join(import.meta.dirname, '../../datasets', name));
    writeFileSync(join(folder, `check-of-${name}.html`), await toHtml(checkDocument(trial, 'drawn')));
  }
  for (const [name, choices] of Object.entries(sheets))
    writeFileSync(join(folder, `${name}.html`), recordingSheets(choices));
}, 60_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

beforeEach((context) => {
  if (browser === undefined) context.skip(howToGetChromium);
});

interface Opened {
  readonly page: Page;
  /** Whatever the page should not have done since it was loaded. */
  readonly complaints: readonly string[];
}

let sheet: Page | undefined;
let shown: { readonly name: string; readonly complaints: string[] } | undefined;

/** One page for all tests: a browser takes as long to make one as to load a report. */
async function onePage(of: Browser): Promise<Page> {
  const page = await of.newPage();
  const complain = (what: string) => shown?.complaints.push(what);
  page.on('console', (message) => complain(`console: ${message.text()}`));
  page.on('pageerror', (error) => complain(`error: ${error.message}`));
  page.on('dialog', (dialog) => {
    complain(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    if (!/^(data|file):/.test(request.url())) complain(`request: ${request.url()}`);
  });
  return page;
}

/** Opens a report, unless it stands open as it was loaded, and gathers whatever it should not do. */
async function open(
  name: string,
  width: number,
  height: number,
  media: 'screen' | 'print' = 'screen',
): Promise<Opened> {
  if (browser === undefined) throw new Error(howToGetChromium);
  sheet ??= await onePage(browser);
  await sheet.emulateMedia({ media });
  await sheet.setViewportSize({ width, height });
  if (shown?.name !== name) {
    shown = { name, complaints: [] };
    await sheet.goto(pathToFileURL(join(folder, `${name}.html`)).href);
  }
  return { page: sheet, complaints: shown.complaints };
}

/** For what changes the page that stands open: whoever asks for it next has it loaded anew. */
function spoil(): void {
  if (shown !== undefined) shown = { ...shown, name: '' };
}

async function measure(page: Page): Promise<Measured> {
  await page.evaluate(inPage);
  return (await page.evaluate('measurePage()')) as Measured;
}

/** What axe-core says against the page, at its present width. */
async function objectionsTo(page: Page): Promise<readonly string[]> {
  spoil();
  await page.evaluate(axe.source);
  const { violations } = (await page.evaluate(runAxe)) as axe.AxeResults;
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200)}`);
}

function expectSound(measured: Measured, fewestCharts = 2): void {
  expect(measured.overflowing).toEqual([]);
  expect(measured.clipped).toEqual([]);
  expect(measured.overlapping).toEqual([]);
  expect(measured.withoutAlternative).toBe(0);
  expect(measured.charts).toBeGreaterThanOrEqual(fewestCharts);
  expect(measured.scripts).toBe(0);
  expect(measured.images).toBe(0);
}

/** Levels go down one at a time; there is one h1, and it is the first. */
function expectHeadingsInOrder(levels: readonly number[]): void {
  expect(levels[0]).toBe(1);
  expect(levels.filter((level) => level === 1)).toHaveLength(1);
  for (const [index, level] of levels.slice(1).entries()) expect(level).toBeLessThanOrEqual((levels[index] ?? 0) + 1);
}

/** In the order of the pages, so that each is loaded once or twice. */
describe.each(reports)('the report %s in a browser', patience, (name) => {
  it('fits a sheet of A4, on few sheets, with the wide charts', async () => {
    // 170 mm between the margins.
    const { page, complaints } = await open(name, 643, 971, 'print');
    const measured = await measure(page);
    const narrow = await page.locator('.narrow:visible').count();
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expectSound(measured);
    expect(narrow).toBe(0);
    const sheets = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
    expect(sheets).toBeGreaterThan(3);
    expect(sheets).toBeLessThanOrEqual(name === 'hostile' ? 25 : 17);
    expect(complaints).toEqual([]);
  });

  it('fits a desktop and phones, and gives axe-core nothing to object to', async () => {
    const { page, complaints } = await open(name, 1280, 900);
    for (const [width, height] of sizes) {
      await page.setViewportSize({ width, height });
      const measured = await measure(page);
      expectSound(measured);
      expectHeadingsInOrder(measured.headings);
    }
    expect(complaints).toEqual([]);
    expect(await objectionsTo(page)).toEqual([]);
  });
});

const furtherPages = [
  ...checked.map((name) => [`check-of-${name}`, 2] as const),
  ...(isWholeSweep ? Object.keys(sheets) : []).map((name) => [name, 0] as const),
];

describe.each(furtherPages)('the page %s in a browser', patience, (name, charts) => {
  it('fits a desktop, a narrow phone and a sheet of A4, and gives axe-core nothing to object to', async () => {
    const { page, complaints } = await open(name, 1280, 900);
    for (const [width, height, media] of [
      [1280, 900, 'screen'],
      [643, 971, 'print'],
      [360, 640, 'screen'],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ media });
      const measured = await measure(page);
      expectSound(measured, charts);
      expectHeadingsInOrder(measured.headings);
    }
    expect(complaints).toEqual([]);
    expect(await objectionsTo(page)).toEqual([]);
  });
});

describe.each(Object.keys(sheets))('%s on paper', patience, (name) => {
  it('keeps every cell wide enough for what stands in it, and every wall on one sheet', async () => {
    const { page } = await open(name, 703, 1009, 'print');
    const cut = await page.evaluate(
      "[...document.querySelectorAll('th, td')].filter((cell) => cell.scrollWidth > cell.clientWidth + 1).map((cell) => cell.textContent)",
    );
    const wrapped = await page.evaluate(
      "[...document.querySelectorAll('.wall thead th')].filter((cell) => cell.getBoundingClientRect().height > 40).map((cell) => cell.textContent)",
    );
    const tallest = await page.evaluate(
      "Math.max(...[...document.querySelectorAll('.wall')].map((wall) => wall.getBoundingClientRect().height))",
    );
    expect({ cut, wrapped }).toEqual({ cut: [], wrapped: [] });
    expect(tallest).toBeLessThan(1009);
  });
});

const soundOnPaper = 'has sheets a third full or more, no row alone, and no heading without what follows';

async function expectSoundOnPaper(name: string, context: TestContext): Promise<void> {
  if (!hasPdftotext()) return context.skip(howToGetPdftotext);
  const { page } = await open(name, 643, 971, 'print');
  spoil();
  const sheets = await printedSheets(page);
  expect(sheets.flatMap(({ marks }) => marks).length).toBeGreaterThan(50);
  expect(faultsOf(sheets)).toEqual([]);
}

/** As the command writes it. */
async function bundledHtml(name: string): Promise<string> {
  const [trial, opinion] = [await bundledTrial(name), await bundledOpinion(name)];
  return (await renderOpinion(opinion, besideOf(trial, opinion))).html;
}

/** One with many sheets; all of them take two minutes. */
const printedTrials = swept(bundledTrials, (name) => name === 'injected-walls');
/** One with cores and a meter. */
const drawnTrials = swept(bundledTrials, (name) => name === 'injected-walls');

describe.each([...new Set([...drawnTrials, ...printedTrials])])('the opinion on %s', patience, (name) => {
  beforeAll(async () => writeFileSync(join(folder, `${name}.html`), await bundledHtml(name)), 60_000);

  if (drawnTrials.includes(name))
    it('keeps every word of its charts inside the frame and clear of others: on a screen, a phone of 340 pixels and A4', async () => {
      const { page } = await open(name, 1280, 900);
      for (const [width, height, media] of [
        [1280, 900, 'screen'],
        [340, 640, 'screen'],
        [643, 971, 'print'],
      ] as const) {
        await page.setViewportSize({ width, height });
        await page.emulateMedia({ media });
        const { clipped, overlapping, charts } = await measure(page);
        expect({ width, clipped, overlapping }).toEqual({ width, clipped: [], overlapping: [] });
        expect(charts).toBeGreaterThan(1);
      }
    });

  if (printedTrials.includes(name)) it(soundOnPaper, (context) => expectSoundOnPaper(name, context));
});

describe.each(isWholeSweep ? ['worthwhile', 'hostile'] : [])('the printed report %s', patience, (name) => {
  it(soundOnPaper, (context) => expectSoundOnPaper(name, context));
});

describe('the sheets of a print', () => {
  it('would be found at fault: an empty sheet, a row or a caption alone, a heading at the foot', () => {
    const sheets: readonly Sheet[] = [
      { filled: 0.9, marks: ['h0', 'n0', 't0r1of3', 't0r2of3'] },
      { filled: 0.3, marks: ['t0r3of3', 'h1', 'c1'] },
      { filled: 0.1, marks: ['n1', 't1r1of1'] },
    ];
    expect(faultsOf(sheets)).toEqual([
      'sheet 2 is 30 % full',
      'heading h1 at the foot of sheet 2',
      'caption of table 2 alone on sheet 2',
      'one row of table 1 alone on sheet 2',
    ]);
  });
});

describe('a wall named as a script', patience, () => {
  it('is shown as it is named, in the table and in the charts, and does nothing', async () => {
    const { page, complaints } = await open('hostile', 1280, 900);
    const cells = await page.locator('tbody th').allTextContents();
    const labels = await page.locator('svg text').allTextContents();
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
    expect(measured.scripts).toBe(1);
    // The page's own policy keeps even this script from running, and the browser says so.
    expect(complaints.join()).toContain('Content Security Policy');
    expect(complaints.join()).not.toContain('dialog');
  });
});
