/** The report's only style sheet: a letter on white paper, one column, no colour that carries meaning; `foot` runs at the foot of every sheet. */
export function styleOf(foot: string | undefined): string {
  return `${sheet}${pageRule(foot === undefined ? '' : `@bottom-left { content: '${cssText(foot)}'; ${small} }`)}`;
}

const small = "font: 8pt system-ui, 'Helvetica Neue', Arial, sans-serif; color: #4d4d4d;";

function pageRule(foot: string): string {
  return `@page { size: A4; margin: 16mm 20mm 18mm; ${foot} @bottom-right { content: 'page ' counter(page) ' of ' counter(pages); ${small} } }\n`;
}

/** Every character but letters, digits and spaces by its number, so that none can end the text. */
function cssText(text: string): string {
  return text.replace(/[^\p{L}\p{N} ]/gu, (character) => `\\${(character.codePointAt(0) ?? 32).toString(16)} `);
}

const sheet = `
:root { --ink: #1a1a1a; --soft: #4d4d4d; --line: #b8b8b0; --hair: #dddbd3; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: #fff; color: var(--ink); font: 1.0625rem/1.55 Charter, 'Iowan Old Style', 'Palatino Linotype', Palatino, Georgia, 'DejaVu Serif', serif; overflow-wrap: break-word; }
header, main { max-width: 40rem; margin: 0 auto; padding: 0 1.25rem; box-sizing: content-box; }
header { padding-top: 3.5rem; }
main { padding-bottom: 5rem; }
h1, h2, h3, h4 { line-height: 1.25; overflow-wrap: anywhere; }
h1 { font-size: 1.9rem; font-weight: 600; margin: 0.2rem 0 0; letter-spacing: -0.01em; }
h2 { font-size: 1.3rem; font-weight: 600; margin: 3rem 0 0.75rem; padding-top: 0.6rem; border-top: 1px solid var(--line); }
h3 { font-size: 1.0625rem; font-weight: 600; margin: 1.75rem 0 0.4rem; }
h4 { font-size: 1rem; font-style: italic; font-weight: 600; margin: 1.4rem 0 0.4rem; }
p, ul { margin: 0 0 0.9rem; }
a { color: inherit; text-decoration-color: #8a8a8a; text-underline-offset: 0.15em; }
dl { margin: 0.6rem 0 0.9rem; }
dl div { display: grid; grid-template-columns: 9rem 1fr; gap: 0 1rem; padding: 0.35rem 0; border-top: 1px solid var(--hair); }
dt { font: 600 0.88rem/1.75 system-ui, 'Segoe UI', 'Helvetica Neue', Arial, sans-serif; }
dd { margin: 0; overflow-wrap: anywhere; min-width: 0; }
nav ul { list-style: none; padding: 0; columns: 2; font: 0.85rem/1.5 system-ui, 'Segoe UI', 'Helvetica Neue', Arial, sans-serif; }
nav li { margin: 0; break-inside: avoid; }
.blank { display: inline-block; min-width: 12rem; height: 1.1em; border-bottom: 1px solid var(--ink); vertical-align: text-bottom; }
.photograph img { display: block; max-width: 100%; height: auto; }
ul { padding-left: 1.2rem; }
li { margin-bottom: 0.35rem; }
.kicker { margin: 0; color: var(--soft); font-style: italic; }
.question { font-style: italic; }
.answer { font-size: 1.3rem; line-height: 1.45; border-left: 3px solid var(--ink); padding-left: 1rem; margin: 1rem 0 1.2rem; }
p, li, td, tbody th { overflow-wrap: anywhere; }
td.words, tbody th.words { overflow-wrap: normal; }
code { font: 0.86em/1.4 ui-monospace, 'SFMono-Regular', Menlo, Consolas, 'DejaVu Sans Mono', monospace; }
pre { margin: 0 0 0.9rem; padding: 0.6rem 0.8rem; border: 1px solid var(--hair); overflow-x: auto; white-space: pre-wrap; }
.scroll { overflow-x: auto; margin: 1.1rem 0 1.5rem; }
table { border-collapse: collapse; width: 100%; font: 0.85rem/1.4 system-ui, 'Segoe UI', 'Helvetica Neue', Arial, sans-serif; }
caption { text-align: left; font-weight: 600; padding-bottom: 0.4rem; overflow-wrap: anywhere; }
caption span { position: sticky; left: 0; display: inline-block; max-width: calc(100vw - 2.5rem); }
th, td { text-align: left; vertical-align: top; padding: 0.3rem 1.1rem 0.3rem 0; border-bottom: 1px solid var(--hair); }
td, th[scope="row"] { min-width: 6rem; }
.number, th[scope="row"].number { min-width: 0; }
td.prose, th[scope="row"].prose { min-width: 11rem; }
.whole { white-space: nowrap; }
th:last-child, td:last-child { padding-right: 0; }
thead th { border-bottom: 1px solid var(--ink); font-weight: 600; vertical-align: bottom; overflow-wrap: normal; }
tbody th { font-weight: 400; }
td.number { min-width: 0; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
thead .number { white-space: normal; }
figure { margin: 1.5rem 0 1.75rem; }
figcaption { color: var(--soft); font-size: 0.92rem; line-height: 1.45; margin-top: 0.4rem; }
.charts { display: flex; flex-wrap: wrap; gap: 1rem; }
.charts svg { display: block; max-width: 100%; height: auto; }
.narrow { display: none; }
@media screen and (max-width: 42rem) {
  body { font-size: 1rem; }
  header { padding-top: 1.75rem; }
  h1 { font-size: 1.5rem; }
  .answer { font-size: 1.15rem; }
  dl div { grid-template-columns: 1fr; }
  nav ul { columns: 1; }
  .wide { display: none; }
  .narrow { display: block; }
  th, td { padding-right: 0.75rem; }
  tbody th { position: sticky; left: 0; background: #fff; }
}
@media print {
  body { font-size: 10.5pt; line-height: 1.45; }
  header, main { max-width: none; padding: 0; }
  h1 { font-size: 20pt; }
  h2 { font-size: 13.5pt; margin-top: 22pt; }
  h3 { font-size: 10.5pt; }
  .answer { font-size: 13pt; }
  table { font-size: 8.5pt; }
  .scroll { overflow: visible; }
  th, td { padding-right: 0.8em; }
  td, th[scope="row"] { min-width: 6.4em; }
  .number, th[scope="row"].number, td.number { min-width: 0; }
  .dense table { font-size: 7.6pt; line-height: 1.3; }
  .dense th, .dense td { padding-right: 0.7em; }
  .dense td, .dense th[scope="row"] { min-width: 5.2em; }
  .dense .number, .dense th[scope="row"].number { min-width: 0; }
  .dense td.prose, .dense th[scope="row"].prose { min-width: 9em; }
  .dense td.number { white-space: normal; overflow-wrap: normal; }
  caption span { position: static; max-width: none; }
  p, li { orphans: 3; widows: 3; }
  h1, h2, h3, caption { break-after: avoid; }
  figure, .charts > div, tr, .answer, pre, .short { break-inside: avoid; }
  p:has(+ figure) { break-after: avoid; break-inside: avoid; }
  p:has(+ ul), p:has(+ pre) { break-after: avoid; }
  #annex-provenance { break-inside: avoid; }
  figcaption { font-size: 9pt; }
  thead { display: table-header-group; break-after: avoid; }
  .charts svg { max-height: 205mm; }
  .further:not(.flows) ~ #declaration p { margin-top: 14pt; }
  .flows ~ #declaration { display: grid; grid-template-columns: 1fr 1fr; column-gap: 8mm; break-inside: avoid; }
  .flows ~ #declaration h2, .flows ~ #declaration .scroll { grid-column: 1 / -1; }
  .flows ~ #declaration p { display: flex; gap: 2mm; margin-top: 0; }
  .flows ~ #declaration .blank { flex: 1; min-width: 0; }
  tbody tr:first-child:not(:last-child) { break-after: avoid; }
  tbody tr:last-child:not(:first-child) { break-before: avoid; }
  h4 { font-size: 10pt; break-after: avoid; }
  dl div, nav, #signatures { break-inside: avoid; }
  #signatures td, #signatures th[scope="row"] { height: 12mm; vertical-align: bottom; }
  .first + .further:not(.flows), .further + .annex { break-before: page; }
  .first h2, .further + .annex h2 { margin-top: 6pt; }
  .first, .further { font-size: 8.9pt; line-height: 1.33; }
  .first dl div { padding: 3pt 0; }
  .first figure { margin: 4pt 0 6pt; }
  .first figcaption { margin-top: 0; }
  .first p, .further p, .further ul { margin-bottom: 5pt; }
  .further h2 { font-size: 11.5pt; margin: 8pt 0 3pt; padding-top: 3pt; }
  .further dl { margin: 0; }
  .further dl div { padding: 2pt 0; }
  .further li { margin-bottom: 1pt; }
  .further table { font-size: 7.6pt; line-height: 1.25; }
  .further td.prose, .further th.prose { width: 55%; }
  .flows .short, .flows ~ .further .short { break-inside: auto; }
  .further dl div, .first dl div { grid-template-columns: 30mm 1fr; }
  .further dt, .first dt { font-size: 8.4pt; line-height: 1.4; }
  .further .scroll { margin: 3pt 0 5pt; }
  .further th, .further td { padding-top: 1.2pt; padding-bottom: 1.2pt; }
  .first .answer { font-size: 11.5pt; line-height: 1.36; margin: 5pt 0; }
  .first nav ul { margin: 0; }
  nav ul { font-size: 7.5pt; line-height: 1.3; columns: 3; }
  .blank { min-width: 55mm; }
}
`;
