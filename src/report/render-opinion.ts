import { type DrawCharts, drawAlone } from '../charts/draw-charts.js';
import type { Opinion } from '../opinion/opinion.js';
import type { BesideOpinion } from './beside-opinion.js';
import { withShownPhotographs } from './paper/shown-photographs.js';
import { reportDocument } from './report-document.js';
import { opinionJson } from './writers/opinion-json.js';
import { chartsOf, htmlOf } from './writers/to-html.js';
import { toMarkdown } from './writers/to-markdown.js';

/** The three files of an opinion, as text. */
export interface RenderedOpinion {
  readonly html: string;
  readonly markdown: string;
  readonly json: string;
}

/**
 * Writes an opinion down: `opinion.html` for readers and for paper, `opinion.md` with the same words and numbers, and
 * `opinion.json` for programs. The same opinion gives the same three texts.
 *
 * @param beside what was made of the opinion elsewhere, such as the error rates of its design; nothing unless told
 * @param draw who draws the charts; this thread, one after the other, unless told
 * @example (await renderOpinion(opinion)).markdown.split('\n')[0] // '# Ten wet walls and a device'
 */
export async function renderOpinion(
  opinion: Opinion,
  beside: BesideOpinion = {},
  draw: DrawCharts = drawAlone,
): Promise<RenderedOpinion> {
  const report = reportDocument(await withShownPhotographs(opinion), beside);
  const pictures = draw(chartsOf(report));
  // Meanwhile another thread may be drawing.
  const [json, markdown] = [opinionJson(opinion, beside, report), toMarkdown(report)];
  return { html: htmlOf(report, await pictures()), markdown, json };
}
