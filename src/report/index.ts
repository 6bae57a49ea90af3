export type { BesideOpinion } from './beside-opinion.js';
export { PaperError } from './paper/paper-error.js';
export { type RenderedOpinion, renderOpinion } from './render-opinion.js';
export { summaryInWords } from './words/summary-in-words.js';
export { OutputFolderError, writeOpinion } from './write-opinion.js';
