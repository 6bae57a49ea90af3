import { escapeHtml } from '../charts/escape-html.js';
import { siteCautions } from '../trial/site-cautions.js';
import { type FormChoices, type FormPlace, namesOf, placesOf } from './form-choices.js';

/** The visit that sheets are printed for. */
export interface SheetVisit {
  /** Such as `Visit 3, before the treatment, planned for 2026-05-02`. */
  readonly heading: string;
}

/**
 * Sheets of paper for the wall side, as one HTML file that prints on A4: a head for the visit, then the walls in the order of walking,
 * with blank cells. No arm stands on them: whoever reads must not learn it from the paper.
 */
export function recordingSheets(choices: FormChoices, visit?: SheetVisit): string {
  const places = placesOf(choices);
  const walls = namesOf(choices);
  const title = choices.title === '' ? 'Recording sheets' : `Recording sheets: ${choices.title}`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)}</title>
<style>${style}</style>
</head>
<body>
<header>
<h1>${escapeHtml(title)}</h1>
<p>${visit === undefined ? 'Print once for each visit.' : `${escapeHtml(visit.heading)}.`} Write down what is shown, also where it looks wrong; strike out, never erase. A place that cannot be read: a dash, and why.
This paper must not say which walls were treated.</p>
</header>
<main>
${visitHead(choices)}
${cautions(choices)}
<section aria-labelledby="walls"><h2 id="walls">Walls in the order of walking</h2>
<p>Walk the other way round at every second visit, and note the time where you begin and end.</p>
${walls
  .map((wall) =>
    wallTable(
      wall,
      places.filter((place) => place.wall === wall),
      choices,
    ),
  )
  .join('\n')}
</section>
${beliefs(walls)}
</main>
</body>
</html>
`;
}

function visitHead({ cores, meter }: FormChoices): string {
  const fields = [
    ['Date', 'year, month, day'],
    ['Begun at, ended at', ''],
    ['Reader', 'whoever holds the instrument'],
    ['Written down by', ''],
    ...(meter === undefined
      ? []
      : [
          ['Meter and its number', meter],
          ['Check block before', 'name and value'],
          ['Check block after', 'name and value'],
        ]),
    ...(cores
      ? [
          ['Drill and bit', 'diameter and depth in mm'],
          ['Containers', 'numbers taken along'],
          ['Balance', 'number, smallest step'],
        ]
      : []),
    ['Weather, last rain', ''],
    ['Heating, windows', 'what was found'],
  ];
  const rows = fields.map(
    ([name = '', hint = '']) =>
      `<tr><th scope="row">${escapeHtml(name)}${hint === '' ? '' : ` <small>${escapeHtml(hint)}</small>`}</th><td></td></tr>`,
  );
  const air = Array.from({ length: 4 }, () => '<tr><td></td><td></td><td></td><td></td></tr>').join('');
  return `<section aria-labelledby="visit"><h2 id="visit">This visit</h2>
<table class="visit"><caption class="hidden">The visit</caption><tbody>${rows.join('')}</tbody></table>
<table class="air"><caption>The air beside the walls, at least one place an arm</caption>
<thead><tr><th scope="col">Place</th><th scope="col">Time</th><th scope="col">Temperature, °C</th><th scope="col">Relative humidity, %</th></tr></thead>
<tbody>${air}</tbody></table></section>`;
}

/** The first of them concern the drill alone; mould and sewage concern everybody. */
function cautions({ cores }: FormChoices): string {
  const shown = cores ? siteCautions : siteCautions.slice(-1);
  const items = shown.map(({ lead, text }) => `<li><strong>${escapeHtml(lead)}</strong> ${escapeHtml(text)}</li>`);
  return `<section aria-labelledby="cautions" class="cautions"><h2 id="cautions">${cores ? 'Before you drill' : 'Before you begin'}</h2>
<ul>${items.join('')}</ul></section>`;
}

function wallTable(wall: string, places: readonly FormPlace[], { cores, meter }: FormChoices): string {
  const blanks = [
    ...(meter === undefined ? [] : ['Reading 1', 'Reading 2']),
    ...(cores ? ['Core no.', 'Container', 'Empty, g', 'Wet, g'] : []),
    'Remarks',
  ];
  const head = ['Place', 'Height, mm', ...blanks].map((name) => `<th scope="col">${escapeHtml(name)}</th>`).join('');
  const rows = places.map(
    ({ station, height_mm }) =>
      `<tr><th scope="row">${escapeHtml(station)}</th><td class="given">${height_mm}</td>${'<td></td>'.repeat(blanks.length)}</tr>`,
  );
  return `<div class="wall"><table><caption><b>${escapeHtml(wall)}</b> <span>Do you know whether this wall was treated? ${boxes}</span></caption>
<thead><tr>${head}</tr></thead><tbody>${rows.join('')}</tbody></table></div>`;
}

const boxes = ['no', 'unsure', 'yes'].map((word) => `<span class="box"></span>\u00a0${word}`).join(' ');

/** Asked when all is read, so that a guess cannot lean on the next reading. */
function beliefs(walls: readonly string[]): string {
  const cells = (wall: string) => `<th scope="row">${escapeHtml(wall)}</th><td></td>`;
  const half = Math.ceil(walls.length / 2);
  const rows = walls.slice(0, half).map((wall, index) => {
    const other = walls[half + index];
    return `<tr>${cells(wall)}${other === undefined ? '<td></td><td></td>' : cells(other)}</tr>`;
  });
  return `<section aria-labelledby="beliefs" class="beliefs"><h2 id="beliefs">When the last wall is read</h2>
<p>Ask each reader alone: which arm do you believe the wall is in, or unknown, and why? It goes into the sheet <code>blinding</code>.</p>
<table><caption class="hidden">What the reader believes</caption>
<thead><tr><th scope="col">Wall</th><th scope="col">Believed arm, why</th><th scope="col">Wall</th><th scope="col">Believed arm, why</th></tr></thead>
<tbody>${rows.join('')}</tbody></table></section>`;
}

const style = `
@page { size: A4 portrait; margin: 14mm 12mm 16mm; @bottom-right { content: counter(page) " / " counter(pages); font: 9pt sans-serif; } }
* { box-sizing: border-box; }
body { font: 11pt/1.35 system-ui, "Liberation Sans", sans-serif; color: #000; background: #fff; max-width: 190mm; margin: 0 auto; padding: 4mm; }
@media print { body { padding: 0; max-width: none; } }
h1 { font-size: 17pt; margin: 0 0 2mm; } h2 { font-size: 13pt; margin: 6mm 0 2mm; break-after: avoid; }
p { margin: 0 0 2mm; } header p { font-size: 10pt; } ul { margin: 0; padding-left: 5mm; } li { margin-bottom: 1mm; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; }
th, td { border: 0.3mm solid #555; height: 8mm; padding: 0 1.5mm; text-align: left; font-weight: normal; vertical-align: middle; }
thead th { background: #eee; height: 6.5mm; padding: 0 1mm; font-size: 9pt; print-color-adjust: exact; }
tr { break-inside: avoid; }
.visit th, .visit td, .air td { height: 7mm; } .visit th { width: 42%; } .air { margin-top: 4mm; }
caption { text-align: left; padding: 1.5mm 0; } small { color: #444; }
.hidden { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
.wall { break-inside: avoid; margin-bottom: 5mm; } .wall caption b { font-size: 13pt; margin-right: 4mm; }
.wall th:first-child { width: 24mm; } .wall th:nth-child(2) { width: 18mm; } .wall th:last-child { width: 28mm; }
.given { text-align: right; }
.box { display: inline-block; width: 4mm; height: 4mm; border: 0.4mm solid #000; vertical-align: -0.6mm; margin-left: 3mm; }
.cautions { border: 0.5mm solid #000; padding: 1mm 4mm 3mm; margin-top: 6mm; break-inside: avoid; font-size: 9.5pt; } .cautions h2 { margin-top: 2mm; }
.beliefs { break-before: page; } .beliefs th:nth-child(odd) { width: 22mm; }
`;
