import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ReportDocument } from '../../../src/report/document.js';
import { findBrowser } from '../../../src/report/paper/find-browser.js';
import { PaperError } from '../../../src/report/paper/paper-error.js';
import { toFigures } from '../../../src/report/paper/to-figures.js';
import { toPdf } from '../../../src/report/paper/to-pdf.js';
import { toWord } from '../../../src/report/paper/to-word.js';
import { reportDocument } from '../../../src/report/report-document.js';
import { toHtml } from '../../../src/report/writers/to-html.js';
import { worthwhile } from '../../helpers/opinion-fixture.js';
import { isWholeSweep } from '../../helpers/sweep.js';

const patience = { timeout: 120_000 };
const folder = mkdtempSync(join(tmpdir(), 'fairwall-paper-test-'));
const whole = reportDocument(worthwhile);
const firstFigures = whole.sections.flatMap(({ blocks }) => blocks.filter(({ kind }) => kind === 'figure')).slice(0, 3);
/** Charts take longest to draw. */
const report: ReportDocument = isWholeSweep
  ? whole
  : {
      ...whole,
      sections: whole.sections.map((section) => ({
        ...section,
        blocks: section.blocks.filter((block) => block.kind !== 'figure' || firstFigures.includes(block)),
      })),
    };

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const howToGetPandoc = 'pandoc is not installed (on Debian: apt-get install pandoc)';

/** Of pandoc's tree: what stands between two blanks is one string. */
function wordsIn(tree: string): string {
  const strings = [
    ...tree.matchAll(/"t":"(?:Str","c":("(?:[^"\\]|\\.)*")|Space|SoftBreak|LineBreak|Plain|Para|Header)/g),
  ];
  return strings
    .map(([, string]) => (string === undefined ? ' ' : (JSON.parse(string) as string)))
    .join('')
    .replace(/\s+/g, ' ');
}

describe('toWord(report), read back by pandoc', patience, () => {
  const path = join(folder, 'opinion.docx');
  let tree = '';
  let text = '';

  beforeAll(async () => {
    writeFileSync(path, await toWord(report));
    const { stdout } = spawnSync('pandoc', ['-t', 'json', path], { encoding: 'utf8', maxBuffer: 2 ** 26 });
    tree = stdout ?? '';
    text = wordsIn(tree);
  }, 120_000);

  it('has every number of every paragraph, list, table and caption of the report', (context) => {
    if (tree === '') context.skip(howToGetPandoc);
    const numbers = (of: string) => of.match(/[+\u2212-]?\d+(?:[.,:]\d+)*/g) ?? [];
    const shown = new Set(numbers(text));
    const stated = report.sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => {
        if (block.kind === 'table') return [block.caption, ...block.rows.flat(2)];
        if (block.kind === 'paragraph') return [...block.line];
        if (block.kind === 'list') return block.items.flat();
        if (block.kind === 'terms') return block.items.flatMap(({ line }) => [...line]);
        return block.kind === 'figure' ? [block.caption] : [];
      }),
    );
    const all = stated.flatMap((part) => numbers(typeof part === 'string' ? part : 'text' in part ? part.text : ''));
    expect(all.length).toBeGreaterThan(200);
    expect(all.filter((number) => !shown.has(number))).toEqual([]);
    expect(text).toContain('In this trial the treatment made');
    expect(text).toContain('The claim that was put to the test');
  });

  it('has real headings, captioned tables with heads, and a picture for every chart', (context) => {
    if (tree === '') context.skip(howToGetPandoc);
    const blocks = report.sections.flatMap((section) => section.blocks);
    const count = (type: string) => tree.split(`"t":"${type}"`).length - 1;
    const headings = report.sections.length + blocks.filter(({ kind }) => kind === 'subheading').length;
    expect(count('Header')).toBe(headings);
    expect(count('Table')).toBe(blocks.filter(({ kind }) => kind === 'table').length);
    const charts = blocks.flatMap((block) => (block.kind === 'figure' ? block.charts : []));
    expect(count('Image')).toBe(charts.length);
    for (const { heading } of report.sections) expect(text).toContain(heading);
    expect(text).toMatch(/Table 1\. .*Table 2\. /);
  });
});

describe('toFigures(report)', patience, () => {
  it('has every chart as SVG, as PNG at 300 dots per inch, and as specification with its data', async () => {
    const files = await toFigures(report);
    const charts = report.sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'figure' ? block.charts : [])),
    );
    expect(files.size).toBe(3 * charts.length);
    const svg = String(files.get('figure-01.svg'));
    const width = Number(/width="([\d.]+)"/.exec(svg)?.[1]);
    const png = await sharp(files.get('figure-01.png')).metadata();
    expect(png.density).toBe(300);
    expect(png.width / width).toBeCloseTo(300 / 96, 1);
    expect(JSON.stringify(JSON.parse(String(files.get('figure-01.vl.json'))))).toContain('-2.7134');
  });
});

describe('toPdf(html)', patience, () => {
  const printed = async (document: ReportDocument) =>
    Buffer.from(await toPdf(await toHtml(document))).toString('latin1');

  it('says so in a line where there is no browser', async () => {
    await expect(toPdf('<p>x</p>', { PATH: folder, FAIRWALL_BROWSER: join(folder, 'none') })).rejects.toThrow(
      PaperError,
    );
    expect(findBrowser({ FAIRWALL_BROWSER: join(folder, 'none'), PATH: process.env.PATH })).toBeUndefined();
  });

  it('prints with tags, bookmarks, fonts inside, and at most three sheets before the first annex', async (context) => {
    if (findBrowser(process.env) === undefined) context.skip('no browser that prints');
    const main = { ...report, sections: report.sections.filter(({ part }) => part !== 'annex') };
    const sheets = await printed(main);
    // A browser takes seconds for a print.
    const pdf = isWholeSweep ? await printed(report) : sheets;
    expect(pdf.startsWith('%PDF')).toBe(true);
    expect(pdf).toMatch(/\/MarkInfo\s*<<[^>]*\/Marked true/);
    expect(pdf).toMatch(/\/Outlines \d/);
    expect(pdf).toMatch(/\/Lang \(en\)/);
    expect(pdf).toMatch(/\/FontFile[23]/);
    expect(sheets.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(3);
  });
});
