export { type BentCurve, type BentCurveData, bentCurve, type Slope } from './bent-curve.js';
export { type ChangeInMean, changeInMean } from './change-in-mean.js';
