import type { Opinion } from '../opinion/opinion.js';
import type { BesideOpinion } from './beside-opinion.js';
import { withShownPhotographs } from './paper/shown-photographs.js';
import { reportDocument } from './report-document.js';
import { opinionJson } from './writers/opinion-json.js';
import { toHtml } from './writers/to-html.js';
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
 * @example (await renderOpinion(opinion)).markdown.split('\n')[0] // '# Ten wet walls and a device'
 */
export async function renderOpinion(opinion: Opinion, beside: BesideOpinion = {}): Promise<RenderedOpinion> {
  const json = opinionJson(opinion, beside);
  const report = reportDocument(await withShownPhotographs(opinion), beside);
  return { html: await toHtml(report), markdown: toMarkdown(report), json };
}
