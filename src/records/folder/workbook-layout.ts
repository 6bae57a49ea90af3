import { elements } from './xml-elements.js';

/** Where everything lies in a workbook. */
export interface WorkbookLayout {
  readonly sheets: readonly { readonly name: string; readonly part: string }[];
  readonly stylesPart: string;
  readonly stringsPart: string;
  /** Whether days are counted from 1904: `workbookPr` may say so as `1` or as `true`. */
  readonly countsFrom1904: '1' | 'true' | undefined;
}

/** The parts that say where all others are. */
export const layoutParts = { workbook: 'xl/workbook.xml', relations: 'xl/_rels/workbook.xml.rels' } as const;

/** ECMA-376 part 1: section 18.2 (workbook), and part 2 for the relationships between parts. */
export function workbookLayout(files: ReadonlyMap<string, Uint8Array>): WorkbookLayout {
  const text = (part: string) => new TextDecoder().decode(files.get(part) ?? new Uint8Array());
  const relations = elements(text(layoutParts.relations), 'Relationship').map((one) => ({
    id: one('Id'),
    type: one('Type').replace(/^.*\//, ''),
    part: partOf(one('Target')),
  }));
  const workbook = text(layoutParts.workbook);
  const partOfType = (type: string) => relations.find((one) => one.type === type)?.part;
  const date1904 = elements(workbook, 'workbookPr')[0]?.('date1904').trim();
  return {
    sheets: elements(workbook, 'sheet').flatMap((sheet) => {
      const part = relations.find(({ id, type }) => id === sheet('id') && type === 'worksheet')?.part;
      return sheet('name') === '' ? [] : [{ name: sheet('name'), part: part ?? '' }];
    }),
    stylesPart: partOfType('styles') ?? 'xl/styles.xml',
    stringsPart: partOfType('sharedStrings') ?? 'xl/sharedStrings.xml',
    countsFrom1904: date1904 === '1' || date1904 === 'true' ? date1904 : undefined,
  };
}

function partOf(target: string): string {
  return target.startsWith('/') ? target.slice(1) : `xl/${target}`;
}

/**
 * The styles of cells that show a number as per cent, by their number: a cell that shows 14.9% holds 0.149.
 * ECMA-376 part 1, section 18.8.30: formats 9 and 10, and those with a per cent sign that is not there as a mere letter.
 */
export function perCentStyles(styles: Uint8Array): ReadonlySet<number> {
  const xml = new TextDecoder().decode(styles);
  const formats = new Set(['9', '10']);
  for (const format of elements(xml, 'numFmt')) if (showsPerCent(format('formatCode'))) formats.add(format('numFmtId'));
  const from = xml.search(/<(?:\w+:)?cellXfs[\s>]/);
  const to = xml.search(/<\/(?:\w+:)?cellXfs>/);
  const found = elements(from === -1 ? '' : xml.slice(from, to === -1 ? undefined : to), 'xf');
  return new Set(found.flatMap((style, index) => (formats.has(style('numFmtId')) ? [index] : [])));
}

/** @example showsPerCent('0.0"%"') // false */
export function showsPerCent(formatCode: string): boolean {
  return formatCode.replace(/"[^"]*"|\\.|\[[^\]]*\]|[_*]./g, '').includes('%');
}
