import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { besideOf } from '../../src/command/beside-of.js';
import type { Opinion } from '../../src/opinion/opinion.js';
import type { BesideOpinion } from '../../src/report/beside-opinion.js';
import type { Block, Inline, Line, ReportDocument, Section } from '../../src/report/document.js';
import { findBrowser } from '../../src/report/paper/find-browser.js';
import { reportDocument } from '../../src/report/report-document.js';
import { answerInWords } from '../../src/report/words/answer-in-words.js';
import { sentencesIn } from '../../src/report/words/first-sentence.js';
import { toHtml } from '../../src/report/writers/to-html.js';
import { toMarkdown } from '../../src/report/writers/to-markdown.js';
import { bundledOpinion, bundledTrial, bundledTrials } from '../helpers/bundled-opinions.js';
import { opinionFixtures } from '../helpers/opinion-fixture.js';
import { isWholeSweep, swept } from '../helpers/sweep.js';

const opinions: Record<string, Opinion> = { ...opinionFixtures };
/** The longest and one without an answer, beside the made opinions. */
const inSample = swept(bundledTrials, (name) => ['injected-walls', 'treated-walls-only'].includes(name));
const besides = new Map<string, BesideOpinion>();
const reports = new Map<string, ReportDocument>();
const printer = findBrowser(process.env);
let browser: Browser | undefined;

beforeAll(async () => {
  for (const name of inSample) {
    const opinion = await bundledOpinion(name);
    opinions[name] = opinion;
    besides.set(name, besideOf(await bundledTrial(name), opinion));
  }
  // One browser for all of them, which prints what `toPdf` prints.
  if (printer !== undefined && isWholeSweep)
    browser = await chromium.launch({ executablePath: printer, args: ['--no-sandbox', '--disable-gpu'] });
}, 600_000);

afterAll(() => browser?.close());

function opinionOf(name: string): Opinion {
  const opinion = opinions[name];
  if (opinion === undefined) throw new Error(`there is no opinion ${name}`);
  return opinion;
}

function reportOn(name: string): ReportDocument {
  const report = reports.get(name) ?? reportDocument(opinionOf(name), besides.get(name));
  reports.set(name, report);
  return report;
}

/** Between the margins of the sheets: 170 mm at 96 points an inch. */
const paperWidth_px = (170 / 25.4) * 96;

/** One page for each of the two, for a browser takes as long to make one as to load a report. */
const pages = new Map<string, Promise<Page>>();
async function pageFor(use: 'printing' | 'measuring', browser: Browser): Promise<Page> {
  const width = Math.floor(paperWidth_px);
  const page = pages.get(use) ?? browser.newPage(use === 'measuring' ? { viewport: { width, height: 900 } } : {});
  pages.set(use, page);
  // The policy of the report before would forbid the styles of the next.
  await (await page).goto('about:blank');
  return page;
}

async function printed(html: string, browser: Browser): Promise<string> {
  const page = await pageFor('printing', browser);
  await page.setContent(html);
  return (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
}

/** How far the widest table reaches, in points of the screen: a browser scales the whole print down to what does not fit. */
async function widestTable(html: string, browser: Browser): Promise<number> {
  const page = await pageFor('measuring', browser);
  await page.emulateMedia({ media: 'print' });
  await page.setContent(html);
  const widest = await page.evaluate(
    'Math.max(...[...document.querySelectorAll("table")].map((table) => table.getBoundingClientRect().right))',
  );
  return Number(widest);
}

/** Lines of a block that are read by themselves: a paragraph, an entry, a row. */
function linesOf(block: Block): readonly Line[] {
  switch (block.kind) {
    case 'paragraph':
      return [block.line];
    case 'list':
      return block.items;
    case 'terms':
      return block.items.map(({ term, line }) => [term, ' ', ...line]);
    case 'table':
      return block.rows.map((row) => row.flatMap((cell) => [...cell, ' ']));
    case 'figure':
    case 'photograph':
      return [[block.caption]];
    case 'subheading':
    case 'command':
      return [[block.text]];
    case 'contents':
      return [];
  }
}

function text(line: Line): string {
  return line.map((part: Inline) => (typeof part === 'string' ? part : 'text' in part ? part.text : '')).join('');
}

function wordsOf(sections: readonly Section[]): number {
  const all = sections.flatMap(({ heading, blocks }) => [
    heading,
    ...blocks.flatMap((block) => [
      ...linesOf(block).map(text),
      ...(block.kind === 'table' ? [block.caption, ...block.columns.map(({ header }) => header)] : []),
    ]),
  ]);
  return all
    .join(' ')
    .split(/\s+/)
    .filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}

const linksIn = (line: Line) =>
  line.flatMap((part) => (typeof part !== 'string' && part.kind === 'link' ? [part.to] : []));

describe.each([...Object.keys(opinionFixtures), ...inSample])('the main part of the opinion on %s', (name) => {
  it('has at most 1,200 words; 800 where there is no answer', () => {
    const main = reportOn(name).sections.filter(({ part }) => part !== 'annex');
    const words = wordsOf(main);
    expect(words).toBeLessThanOrEqual(opinionOf(name).verdict.code === 'not-answerable' ? 800 : 1200);
    expect(words).toBeGreaterThan(200);
  });

  it.runIf(isWholeSweep)(
    'stands on three sheets of A4 at most; on two where there is no answer',
    async (context) => {
      if (browser === undefined) return context.skip('no browser that prints');
      const report = reportOn(name);
      const main = { ...report, sections: report.sections.filter(({ part }) => part !== 'annex') };
      const pdf = await printed(await toHtml(main), browser);
      const sheets = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
      expect(sheets).toBeGreaterThan(0);
      expect(sheets).toBeLessThanOrEqual(opinionOf(name).verdict.code === 'not-answerable' ? 2 : 3);
    },
    120_000,
  );

  it.runIf(isWholeSweep)(
    'has no table in its annexes that is wider than the paper',
    async (context) => {
      if (browser === undefined) return context.skip('no browser that prints');
      const report = reportOn(name);
      // Pictures shrink to the sheet by themselves, and take long to draw.
      const sections = report.sections.map((section) => ({
        ...section,
        blocks: section.blocks.filter(({ kind }) => kind !== 'figure'),
      }));
      expect(await widestTable(await toHtml({ ...report, sections }), browser)).toBeLessThanOrEqual(paperWidth_px);
    },
    120_000,
  );

  it('answers in at most three sentences, and the first page has under 20 words a sentence on average', () => {
    const opinion = opinionOf(name);
    expect(sentencesIn(answerInWords(opinion)).length).toBeLessThanOrEqual(3);
    const [first] = reportOn(name).sections;
    const sentences = (first?.blocks ?? []).flatMap(linesOf).flatMap((line) => sentencesIn(text(line)));
    const words = sentences.join(' ').split(/\s+/).length;
    expect(words / sentences.length).toBeLessThan(20);
  });

  it('leads from every number to an annex that is there', () => {
    const { sections } = reportOn(name);
    const ids = new Set(sections.map(({ id }) => id));
    for (const { part, blocks } of sections)
      for (const block of blocks) {
        for (const line of linesOf(block)) for (const to of linksIn(line)) expect(ids).toContain(to);
        if (part === 'annex' || block.kind === 'figure') continue;
        for (const line of linesOf(block))
          if (/\d/.test(text(line))) expect(linksIn(line).join(), text(line)).toMatch(/annex-/);
      }
  });

  it('names every section in the contents, and letters the annexes without a gap', () => {
    const { sections } = reportOn(name);
    const contents = sections[0]?.blocks.find((block) => block.kind === 'contents');
    expect(contents?.links.map(({ to }) => to)).toEqual(sections.slice(1).map(({ id }) => id));
    const letters = sections.flatMap(({ heading }) => /^Annex ([A-Z])\. /.exec(heading)?.[1] ?? []);
    expect(letters.join('')).toBe('ABCDEFGHIJKLMNOPQRSTUVWXYZ'.slice(0, letters.length));
    expect(sections.every(({ blocks }) => blocks.length > 0)).toBe(true);
  });

  it('signs nothing from memory, states no rule of counting on the first page, and leaves lines to fill in', () => {
    const report = reportOn(name);
    const markdown = toMarkdown(report);
    expect(markdown).not.toContain('from memory');
    const page = (report.sections[0]?.blocks ?? []).flatMap(linesOf).map(text).join(' ');
    expect(page).not.toMatch(/more than one|at most \d|several others/);
    const blanks = report.sections.filter(({ id }) => id === 'commission' || id === 'declaration');
    const lines = blanks.flatMap(({ blocks }) => blocks.flatMap(linesOf));
    expect(lines.flat().filter((part) => typeof part !== 'string' && part.kind === 'blank').length).toBeGreaterThan(10);
  });
});
