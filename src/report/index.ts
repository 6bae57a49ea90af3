export type { BesideOpinion } from './beside-opinion.js';
export { PaperError } from './paper/paper-error.js';
export { type RenderedOpinion, renderOpinion } from './render-opinion.js';
export { type CompetingVoltage, competingVoltages } from './words/competing-voltages.js';
export { ledgerDriverInWords, ledgerMethodInWords } from './words/ledger-in-words.js';
export { summaryInWords } from './words/summary-in-words.js';
export { OutputFolderError, writeOpinion } from './write-opinion.js';
