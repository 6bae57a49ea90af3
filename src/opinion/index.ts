export type * from './drying/drying-part.js';
export { evidenceFrom, evidenceRules } from './evidence.js';
export { formOpinion, type OpinionOptions } from './form-opinion.js';
export type * from './judging/judging.js';
export type * from './opinion.js';
export { type RenderedOpinion, renderOpinion } from './render-opinion.js';
export { summaryInWords } from './summary-in-words.js';
export { verdictCode } from './verdict-code.js';
export { OutputFolderError, writeOpinion } from './write-opinion.js';
