import type { Opinion } from '../opinion/opinion.js';
import type { BesideOpinion } from './beside-opinion.js';
import { withShownPhotographs } from './paper/shown-photographs.js';
import { toFigures } from './paper/to-figures.js';
import { toPdf } from './paper/to-pdf.js';
import { toWord } from './paper/to-word.js';
import type { RenderedOpinion } from './render-opinion.js';
import { reportDocument } from './report-document.js';
import type { FurtherFiles } from './write-opinion.js';

/** Which files beside the three are asked for. */
export interface Further {
  readonly pdf: boolean;
  readonly word: boolean;
  readonly figures: boolean;
}

/**
 * The same report for paper, for a word processor, and its charts by themselves.
 *
 * @throws PaperError where no browser prints
 */
export async function renderFurther(
  opinion: Opinion,
  { html }: Pick<RenderedOpinion, 'html'>,
  asked: Further,
  beside: BesideOpinion,
): Promise<FurtherFiles> {
  const report = reportDocument(await withShownPhotographs(opinion), beside);
  return {
    ...(asked.pdf ? { pdf: await toPdf(html) } : {}),
    ...(asked.word ? { word: await toWord(report) } : {}),
    ...(asked.figures ? { figures: await toFigures(report) } : {}),
  };
}
