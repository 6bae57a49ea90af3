import { createHash } from 'node:crypto';
import { drawAlone, type SizesOfChart } from '../../charts/draw-charts.js';
import { escapeHtml } from '../../charts/escape-html.js';
import type { Block, Figure, Inline, Line, Photo, ReportDocument, Section, Table } from '../document.js';
import { numbersOf } from './numbers-of.js';
import { styleOf } from './style.js';

/** The report as one HTML file that needs nothing else: style and charts inside, no script, nothing fetched. */
export async function toHtml(report: ReportDocument): Promise<string> {
  return htmlOf(report, await drawAlone(chartsOf(report))());
}

/** What a report has to have drawn: the sizes of each chart, in the order of the report. */
export function chartsOf(report: ReportDocument): readonly SizesOfChart[] {
  return figuresOf(report).flatMap(({ charts }) =>
    charts.map(({ wide, narrow }) => (narrow === undefined ? [wide] : [wide, narrow])),
  );
}

/** @param pictures what was drawn of the charts that `chartsOf` names */
export function htmlOf(report: ReportDocument, pictures: readonly (readonly string[])[]): string {
  const figures = drawingsOf(report, pictures);
  const style = styleOf(report.foot);
  const styleHash = createHash('sha256').update(style).digest('base64');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-${styleHash}'; img-src data:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light">
<title>${escapeHtml(`${plain(report.title)} – ${report.kicker}`)}</title>
<link rel="icon" href="data:,">
<style>${style}</style>
</head>
<body>
<header>
<p class="kicker">${escapeHtml(report.kicker)}</p>
<h1>${inline(report.title)}</h1>
</header>
<main>
${report.sections.map((section) => sectionHtml(section, figures)).join('\n')}
</main>
</body>
</html>
`;
}

interface Drawings {
  readonly charts: ReadonlyMap<Figure, string>;
  readonly numbers: ReadonlyMap<Figure | Photo | Table, number>;
}

function drawingsOf(report: ReportDocument, pictures: readonly (readonly string[])[]): Drawings {
  const left = pictures.values();
  const charts = new Map(
    figuresOf(report).map((figure) => [figure, figure.charts.map(() => chartHtml(left.next().value ?? [])).join('\n')]),
  );
  return { charts, numbers: numbersOf(report) };
}

function figuresOf({ sections }: ReportDocument): readonly Figure[] {
  return sections.flatMap(({ blocks }) => blocks.filter((block) => block.kind === 'figure'));
}

function chartHtml([wide = '', narrow]: readonly string[]): string {
  if (narrow === undefined) return `<div>${wide}</div>`;
  return `<div class="wide">${wide}</div>\n<div class="narrow">${narrow}</div>`;
}

function sectionHtml(section: Section, figures: Drawings): string {
  return [
    `<section id="${section.id}"${classOf(section)} aria-labelledby="${section.id}-heading">`,
    `<h2 id="${section.id}-heading">${escapeHtml(section.heading)}</h2>`,
    ...section.blocks.map((block) => blockHtml(block, figures)),
    '</section>',
  ].join('\n');
}

function classOf({ part, flows }: Section): string {
  if (part === undefined) return '';
  return ` class="${part}${flows === true ? ' flows' : ''}"`;
}

function blockHtml(block: Block, figures: Drawings): string {
  switch (block.kind) {
    case 'subheading':
      return block.deep === true ? `<h4>${escapeHtml(block.text)}</h4>` : `<h3>${escapeHtml(block.text)}</h3>`;
    case 'paragraph':
      return `<p${block.role === undefined ? '' : ` class="${block.role}"`}>${line(block.line)}</p>`;
    case 'list':
      return `<ul>\n${block.items.map((item) => `<li>${line(item)}</li>`).join('\n')}\n</ul>`;
    case 'command':
      return `<pre><code>${escapeHtml(block.text)}</code></pre>`;
    case 'terms':
      return `<dl>\n${block.items.map((item) => `<div><dt>${escapeHtml(item.term)}</dt><dd>${line(item.line)}</dd></div>`).join('\n')}\n</dl>`;
    case 'contents':
      return `<nav aria-label="Contents"><ul>\n${block.links.map((each) => `<li>${inline(each)}</li>`).join('\n')}\n</ul></nav>`;
    case 'photograph':
      return photographHtml(block, figures.numbers.get(block));
    case 'table':
      return tableHtml(block, figures.numbers.get(block));
    case 'figure': {
      const caption = `<figcaption>Figure ${figures.numbers.get(block)}. ${escapeHtml(block.caption)}</figcaption>`;
      return `<figure>\n<div class="charts">\n${figures.charts.get(block)}\n</div>\n${caption}\n</figure>`;
    }
  }
}

function photographHtml({ bytes, caption }: Photo, number: number | undefined): string {
  // A JPEG begins with FF, a PNG with 89.
  const type = bytes[0] === 0xff ? 'image/jpeg' : 'image/png';
  const source = `data:${type};base64,${Buffer.from(bytes).toString('base64')}`;
  const text = escapeHtml(caption);
  return `<figure class="photograph">\n<img src="${source}" alt="${text}">\n<figcaption>Figure ${number}. ${text}</figcaption>\n</figure>`;
}

/** Tables of up to this many rows and characters are not split between sheets of paper: a longer one would leave half a sheet empty. */
const fewRows = 10;
const fewCharacters = 900;

/** Tables of this many columns or more are set smaller and closer on paper: a browser scales the whole print to its widest part. */
const manyColumns = 7;

/** Columns whose words are no longer than this break between words alone; in others a long name may break anywhere. */
const longWord = 18;

/** In a container that scrolls by itself on a narrow screen, and can be reached from the keyboard. */
function tableHtml(table: Table, number: number | undefined): string {
  const name = escapeHtml(`Table ${number}. ${table.caption}`);
  const classes = table.columns.map(({ look }, index) => {
    const words = table.rows.flatMap((cells) =>
      (cells[index] ?? [])
        .map(plain)
        .join('')
        .split(/[\t\n -]/),
    );
    return [
      ...(look === undefined ? [] : [look]),
      ...(words.every((word) => word.length <= longWord) ? ['words'] : []),
    ];
  });
  const classOf = (index: number) => (classes[index]?.length ? ` class="${classes[index].join(' ')}"` : '');
  const headers = table.columns.map(
    (column, index) => `<th scope="col"${classOf(index)}>${escapeHtml(column.header)}</th>`,
  );
  const rows = table.rows.map((cells) => {
    const [first, ...others] = cells.map(line);
    const rest = others.map((cell, index) => `<td${classOf(index + 1)}>${cell}</td>`);
    return `<tr><th scope="row"${classOf(0)}>${first ?? ''}</th>${rest.join('')}</tr>`;
  });
  const characters = rows.join('').replace(/<[^>]*>/g, '').length;
  const short = rows.length <= fewRows && characters <= fewCharacters;
  const looks = ['scroll', ...(short ? ['short'] : []), ...(table.columns.length >= manyColumns ? ['dense'] : [])];
  return [
    `<div class="${looks.join(' ')}" role="region" tabindex="0" aria-label="${name}">`,
    `<table>\n<caption><span>${name}</span></caption>`,
    `<thead><tr>${headers.join('')}</tr></thead>`,
    `<tbody>\n${rows.join('\n')}\n</tbody>\n</table>\n</div>`,
  ].join('\n');
}

function line(parts: Line): string {
  return parts.map(inline).join('');
}

function inline(part: Inline): string {
  if (typeof part === 'string') return escapeHtml(withPercent(part));
  switch (part.kind) {
    case 'strong':
      return `<strong>${escapeHtml(part.text)}</strong>`;
    case 'code':
      return `<code>${escapeHtml(part.text)}</code>`;
    case 'quoted':
      return `<bdi>${escapeHtml(part.text)}</bdi>`;
    case 'link':
      return `<a href="#${part.to}">${escapeHtml(part.text)}</a>`;
    case 'blank':
      return '<span class="blank"></span>';
  }
}

function plain(part: Inline): string {
  if (typeof part === 'string') return part;
  return part.kind === 'blank' ? '' : part.text;
}

/** A per cent sign stays on the line of its number. */
function withPercent(text: string): string {
  return text.replace(/(\d) %/g, '$1\u00a0%');
}
