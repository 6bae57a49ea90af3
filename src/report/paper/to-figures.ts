import { renderSvg } from '../../charts/index.js';
import type { ReportDocument } from '../document.js';
import { numbersOf } from '../writers/numbers-of.js';
import { pngOf } from './to-png.js';

/** Every chart of the report by file name: as SVG, as PNG at 300 dots per inch, and as Vega-Lite specification with its data. */
export async function toFigures(report: ReportDocument): Promise<ReadonlyMap<string, string | Uint8Array>> {
  const files = new Map<string, string | Uint8Array>();
  const numbers = numbersOf(report);
  for (const { blocks } of report.sections)
    for (const block of blocks) {
      if (block.kind !== 'figure') continue;
      for (const [index, { wide }] of block.charts.entries()) {
        const part = block.charts.length === 1 ? '' : `-part-${index + 1}`;
        const name = `figure-${String(numbers.get(block)).padStart(2, '0')}${part}`;
        const svg = await renderSvg(wide);
        files.set(`${name}.svg`, svg);
        files.set(`${name}.png`, (await pngOf(svg)).bytes);
        files.set(`${name}.vl.json`, `${JSON.stringify(wide, null, 2)}\n`);
      }
    }
  return files;
}
