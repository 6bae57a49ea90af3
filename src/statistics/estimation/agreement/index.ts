// How far two methods, or several readers, agree.
export { type Concordance, concordance } from './concordance.js';
export { type IntraclassOfGroups, intraclassOfGroups } from './intraclass-of-groups.js';
export {
  type AgreementOptions,
  type LimitsOfAgreement,
  type LimitWithInterval,
  limitsOfAgreement,
} from './limits-of-agreement.js';
export { limitsOfRepeated, type ReadByBoth, type RepeatedReadings } from './limits-of-repeated.js';
export { type PrecisionOfReaders, repeatability } from './repeatability.js';
export { type KappaOptions, type WeightedKappa, weightedKappa } from './weighted-kappa.js';
