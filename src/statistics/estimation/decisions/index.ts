// Decisions.

export { holm } from './adjusted-p-values.js';
export { type ConfidencePoint, confidenceCurve } from './confidence-curve.js';
export { type Equivalence, equivalence } from './equivalence.js';
export { fixedSequence, type SequenceStep } from './fixed-sequence.js';
export type { Better, JudgedEstimate } from './judged-estimate.js';
export { type MinimumEffect, minimumEffect } from './minimum-effect.js';
export { type Precision, powerOfT } from './power-of-t.js';
export { smallestDetectable } from './smallest-detectable.js';
