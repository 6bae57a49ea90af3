import type { ParagraphChild, Paragraph as WordParagraph, Table as WordTable } from 'docx';
import { renderSvg } from '../../charts/index.js';
import { present } from '../../plain/present.js';
import { displayText } from '../../words/display-text.js';
import type { Block, Inline, Line, ReportDocument, Section, Table } from '../document.js';
import { numbersOf } from '../writers/numbers-of.js';
import { pngOf } from './to-png.js';

type Word = typeof import('docx');

/** Pixels at 96 to the inch that fit between the margins of A4. */
const widest_px = 620;

/** The report for a word processor: real headings, captions, tables and pictures, so that it can be put on letterhead. */
export async function toWord(report: ReportDocument): Promise<Uint8Array> {
  const word = await import('docx');
  const writer = writerOf(word, numbersOf(report));
  const children: (WordParagraph | WordTable)[] = [
    new word.Paragraph({ heading: word.HeadingLevel.TITLE, children: [writer.inline(report.title)] }),
    new word.Paragraph({ style: 'Kicker', text: report.kicker }),
  ];
  for (const section of report.sections) children.push(...(await writer.section(section)));
  const document = new word.Document({
    creator: 'fairwall',
    title: plain(report.title),
    styles: styles,
    features: { updateFields: false },
    sections: [
      {
        properties: {
          page: {
            size: { width: 11_906, height: 16_838 },
            margin: { top: 1000, bottom: 1100, left: 1134, right: 1134 },
          },
        },
        footers: { default: footer(word, report.foot ?? '') },
        children,
      },
    ],
  });
  return word.Packer.toBuffer(document);
}

/** `size` in half points. A heading stays with what follows, and stands in the outline. */
function heading(size: number, outlineLevel: number) {
  return {
    run: { size, bold: true, color: '1a1a1a' },
    paragraph: { keepNext: true, outlineLevel, spacing: { before: 240, after: 80 } },
  };
}

const styles = {
  default: {
    document: { run: { font: 'Georgia', size: 20 } },
    heading1: heading(32, 0),
    heading2: heading(26, 1),
    heading3: heading(24, 2),
  },
  paragraphStyles: [
    // The style that all others are based on: without it they hang in the air, and headings are not read as headings.
    { id: 'Normal', name: 'Normal', quickFormat: true },
    {
      id: 'Caption',
      name: 'caption',
      basedOn: 'Normal',
      run: { bold: true, size: 17 },
      paragraph: { spacing: { before: 80, after: 80 }, keepNext: true },
    },
    {
      id: 'FigureCaption',
      name: 'Figure caption',
      basedOn: 'Caption',
      run: { bold: false, size: 17 },
      paragraph: { spacing: { after: 160 }, keepNext: false },
    },
    { id: 'Kicker', name: 'Kicker', basedOn: 'Normal', run: { italics: true, color: '4d4d4d' } },
    {
      id: 'Answer',
      name: 'Answer',
      basedOn: 'Normal',
      run: { size: 25 },
      paragraph: { spacing: { before: 120, after: 160 }, indent: { left: 200 } },
    },
    { id: 'TableText', name: 'Table text', basedOn: 'Normal', run: { size: 16 } },
    { id: 'Command', name: 'Command', basedOn: 'Normal', run: { font: 'Courier New', size: 16 } },
  ],
};

function footer(word: Word, foot: string) {
  return new word.Footer({
    children: [
      new word.Paragraph({
        tabStops: [{ type: word.TabStopType.RIGHT, position: 9600 }],
        children: [
          new word.TextRun({
            size: 15,
            children: [foot, '\tpage ', word.PageNumber.CURRENT, ' of ', word.PageNumber.TOTAL_PAGES],
          }),
        ],
      }),
    ],
  });
}

function writerOf(word: Word, numbers: ReturnType<typeof numbersOf>) {
  const inline = (part: Inline): ParagraphChild => {
    if (typeof part === 'string') return new word.TextRun(displayText(part));
    switch (part.kind) {
      case 'strong':
        return new word.TextRun({ text: displayText(part.text), bold: true });
      case 'code':
        return new word.TextRun({ text: displayText(part.text), font: 'Courier New' });
      case 'quoted':
        return new word.TextRun(displayText(part.text));
      case 'link':
        return new word.InternalHyperlink({
          anchor: part.to,
          children: [new word.TextRun({ text: part.text, underline: {} })],
        });
      case 'blank':
        return new word.TextRun('_'.repeat(30));
    }
  };
  const runs = (line: Line) => line.map(inline);
  const paragraph = (line: Line, style?: string) =>
    new word.Paragraph({ children: runs(line), spacing: { after: 120 }, ...present({ style }) });

  function table(block: Table): readonly (WordParagraph | WordTable)[] {
    const cell = (line: Line, index: number, isHead: boolean) =>
      new word.TableCell({
        margins: { top: 30, bottom: 30, left: 60, right: 60 },
        children: [
          new word.Paragraph({
            style: 'TableText',
            ...(block.columns[index]?.look === 'number' ? { alignment: word.AlignmentType.RIGHT } : {}),
            children: isHead ? [new word.TextRun({ text: line.map(plain).join(''), bold: true })] : runs(line),
          }),
        ],
      });
    const head = new word.TableRow({
      tableHeader: true,
      cantSplit: true,
      children: block.columns.map(({ header }, index) => cell([header], index, true)),
    });
    const rows = block.rows.map(
      (cells) => new word.TableRow({ cantSplit: true, children: cells.map((line, index) => cell(line, index, false)) }),
    );
    return [
      new word.Paragraph({ style: 'Caption', text: `Table ${numbers.get(block)}. ${displayText(block.caption)}` }),
      new word.Table({ width: { size: 100, type: word.WidthType.PERCENTAGE }, rows: [head, ...rows] }),
      new word.Paragraph({ text: '' }),
    ];
  }

  async function picture(svg: string, description: string): Promise<WordParagraph> {
    const { bytes, width, height } = await pngOf(svg);
    const scale = Math.min(1, widest_px / width);
    return new word.Paragraph({
      keepNext: true,
      children: [
        new word.ImageRun({
          type: 'png',
          data: bytes,
          transformation: { width: Math.round(width * scale), height: Math.round(height * scale) },
          altText: { name: 'chart', title: 'Chart', description: displayText(description) },
        }),
      ],
    });
  }

  async function block(of: Block): Promise<readonly (WordParagraph | WordTable)[]> {
    switch (of.kind) {
      case 'subheading':
        return [
          new word.Paragraph({
            heading: of.deep === true ? word.HeadingLevel.HEADING_3 : word.HeadingLevel.HEADING_2,
            text: displayText(of.text),
          }),
        ];
      case 'paragraph':
        return [paragraph(of.line, of.role === 'answer' ? 'Answer' : undefined)];
      case 'list':
        return of.items.map((line) => new word.Paragraph({ bullet: { level: 0 }, children: runs(line) }));
      case 'command':
        return [new word.Paragraph({ style: 'Command', text: displayText(of.text) })];
      case 'terms':
        return of.items.map(({ term, line }) => paragraph([{ kind: 'strong', text: `${term}. ` }, ...line]));
      case 'contents':
        return of.links.map((each) => new word.Paragraph({ style: 'TableText', children: [inline(each)] }));
      case 'table':
        return table(of);
      case 'photograph': {
        const { default: sharp } = await import('sharp');
        const { width, height } = await sharp(of.bytes).metadata();
        const scale = Math.min(1, widest_px / width);
        return [
          new word.Paragraph({
            keepNext: true,
            children: [
              new word.ImageRun({
                type: of.bytes[0] === 0xff ? 'jpg' : 'png',
                data: of.bytes,
                transformation: { width: Math.round(width * scale), height: Math.round(height * scale) },
                altText: { name: 'photograph', title: 'Photograph', description: displayText(of.caption) },
              }),
            ],
          }),
          new word.Paragraph({ style: 'FigureCaption', text: `Figure ${numbers.get(of)}. ${displayText(of.caption)}` }),
        ];
      }
      case 'figure': {
        const pictures: WordParagraph[] = [];
        for (const { wide, description } of of.charts) pictures.push(await picture(await renderSvg(wide), description));
        const caption = `Figure ${numbers.get(of)}. ${displayText(of.caption)}`;
        return [...pictures, new word.Paragraph({ style: 'FigureCaption', text: caption })];
      }
    }
  }

  return {
    inline,
    async section({ id, heading, blocks }: Section): Promise<readonly (WordParagraph | WordTable)[]> {
      const written: (WordParagraph | WordTable)[] = [
        new word.Paragraph({
          heading: word.HeadingLevel.HEADING_1,
          children: [new word.Bookmark({ id, children: [new word.TextRun(displayText(heading))] })],
        }),
      ];
      for (const each of blocks) written.push(...(await block(each)));
      return written;
    },
  };
}

function plain(part: Inline): string {
  if (typeof part === 'string') return part;
  return part.kind === 'blank' ? '' : displayText(part.text);
}
