import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';

/** One printed sheet: how far down it is filled, from 0 to 1, and what begins on it. */
export interface Sheet {
  readonly filled: number;
  /** `h4` a heading, `n4` what follows it, `c2` a table's caption, `t2r5of9` one of its rows, in the order of the document. */
  readonly marks: readonly string[];
}

/** Millimetres of A4 above the foot, and above the text. */
const [foot_mm, top_mm, height_mm] = [279, 16, 297];

/**
 * Inside the page: a white letter or two, out of the flow, at every heading, at what follows it, and at every row, so that the
 * printed text says on which sheet each stands.
 */
const addMarks = `(() => {
  const mark = (element, name) => {
    const span = document.createElement('span');
    span.textContent = '\\u00a7' + name + '\\u00a7';
    span.style.cssText = 'position:absolute;font:1px monospace;color:#fff;white-space:nowrap';
    element.prepend(span);
  };
  const into = (element) => element.querySelector('caption span, li, dt') ?? element;
  [...document.querySelectorAll('h2, h3, h4')].forEach((heading, index) => {
    const next = heading.nextElementSibling;
    mark(heading, 'h' + index);
    if (next !== null) mark(into(next), 'n' + index);
  });
  [...document.querySelectorAll('table')].forEach((table, index) => {
    const rows = [...table.querySelectorAll('tbody tr')];
    if (table.caption !== null && rows.length > 0) mark(into(table.caption), 'c' + index);
    rows.forEach((row, at) => mark(row.querySelector('th, td'), 't' + index + 'r' + (at + 1) + 'of' + rows.length));
  });
})()`;

export const howToGetPdftotext = 'no pdftotext found: install it (on Debian: apt-get install poppler-utils)';

export function hasPdftotext(): boolean {
  return spawnSync('pdftotext', ['-v']).error === undefined;
}

/** Prints a page as it stands in the browser, marked; needs `pdftotext`. */
export async function printedSheets(page: Page): Promise<readonly Sheet[]> {
  await page.evaluate(addMarks);
  const folder = mkdtempSync(join(tmpdir(), 'fairwall-sheets-'));
  try {
    const path = join(folder, 'page.pdf');
    writeFileSync(path, await page.pdf({ preferCSSPageSize: true }));
    const boxes = execFileSync('pdftotext', ['-bbox', path, '-'], { encoding: 'utf8', maxBuffer: 2 ** 27 });
    return boxes.split('<page ').slice(1).map(sheetOf);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function sheetOf(page: string): Sheet {
  const height = Number(/height="([\d.]+)"/.exec(page)?.[1]);
  const words = [...page.matchAll(/yMax="([\d.]+)">([^<]*)</g)].map(([, yMax, text = '']) => ({
    mm: (Number(yMax) / height) * height_mm,
    text,
  }));
  const own = words.filter(({ mm, text }) => mm < foot_mm && !text.includes('§'));
  const lowest = Math.max(top_mm, ...own.map(({ mm }) => mm));
  const marks = [
    ...words
      .map(({ text }) => text)
      .join(' ')
      .matchAll(/§(\w+)§/g),
  ].map(([, name = '']) => name);
  return { filled: (lowest - top_mm) / (foot_mm - top_mm), marks };
}

/** Sheets under a third full, rows left alone, and headings and captions parted from what follows. */
export function faultsOf(sheets: readonly Sheet[]): readonly string[] {
  const sheetOfMark = new Map(sheets.flatMap(({ marks }, index) => marks.map((mark) => [mark, index + 1] as const)));
  const empty = sheets
    .slice(0, -1)
    .flatMap(({ filled }, index) =>
      filled < 1 / 3 ? [`sheet ${index + 1} is ${Math.round(100 * filled)} % full`] : [],
    );
  const parted = [...sheetOfMark].flatMap(([mark, sheet]) => {
    const next = sheetOfMark.get(mark.replace('h', 'n'));
    return mark.startsWith('h') && next !== undefined && next !== sheet
      ? [`heading ${mark} at the foot of sheet ${sheet}`]
      : [];
  });
  return [...empty, ...parted, ...captionsAlone(sheetOfMark), ...rowsAlone(sheets)];
}

/** A caption, and with it the head of its table, at the foot of a sheet above no row. */
function captionsAlone(sheetOfMark: ReadonlyMap<string, number>): readonly string[] {
  return [...sheetOfMark].flatMap(([mark, sheet]) => {
    const [, table] = /^t(\d+)r1of/.exec(mark) ?? [];
    const above = sheetOfMark.get(`c${table}`);
    return above === undefined || above === sheet
      ? []
      : [`caption of table ${Number(table) + 1} alone on sheet ${above}`];
  });
}

/** Where a table of several rows goes over sheets, two of them at least stand on each. */
function rowsAlone(sheets: readonly Sheet[]): readonly string[] {
  return sheets.flatMap(({ marks }, index) => {
    const rowsHere = new Map<string, number>();
    for (const mark of marks) {
      const [, table, of] = /^t(\d+)r\d+of(\d+)$/.exec(mark) ?? [];
      if (table !== undefined && Number(of) > 1) rowsHere.set(table, (rowsHere.get(table) ?? 0) + 1);
    }
    return [...rowsHere].flatMap(([table, rows]) =>
      rows === 1 ? [`one row of table ${Number(table) + 1} alone on sheet ${index + 1}`] : [],
    );
  });
}
