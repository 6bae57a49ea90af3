// Effect sizes.

export { type GlassDelta, type GlassSummary, glassDelta, glassDeltaOfGroups } from './glass-delta.js';
export { type HedgesG, hedgesG, hedgesGOfGroups, type StandardisedSummary } from './hedges-g.js';
export { type LogResponseRatio, logResponseRatio } from './log-response-ratio.js';
export { type ProbabilityOfSuperiority, probabilityOfSuperiority } from './probability-of-superiority.js';
export { smallSampleCorrection } from './small-sample-correction.js';
