import { designOfStations, primaryDifference, stationChanges } from '../../analysis/index.js';
import { moistureReadings } from '../../moisture/index.js';
import type { Core, Trial } from '../../trial/index.js';

/** The primary difference with the dry masses as recorded, and with those that reused cores had at each visit. */
export interface AnswerCorrected {
  readonly asRecorded: number;
  readonly corrected: number;
  readonly unit: string;
}

/**
 * How far the answer moves when reused cores are taken against the dry mass that they had, where a later drying tells it.
 * Nothing where cores are not the outcome or no difference can be computed.
 *
 * @param dryMasses gross, of the cores to correct
 */
export function answerCorrected(trial: Trial, dryMasses: ReadonlyMap<Core, number>): AnswerCorrected | undefined {
  const { outcome, instruments } = trial.protocol;
  const kind = instruments.find(({ instrument }) => instrument === outcome.instrument)?.kind;
  if (kind !== 'gravimetric' || dryMasses.size === 0) return undefined;
  const cores = trial.cores.map((core) => {
    const dry_g = dryMasses.get(core);
    return dry_g === undefined ? core : { ...core, dry_g };
  });
  const [asRecorded, corrected] = [differenceIn(trial), differenceIn({ ...trial, cores })];
  return asRecorded === undefined || corrected === undefined
    ? undefined
    : { asRecorded, corrected, unit: outcome.unit };
}

function differenceIn(trial: Trial): number | undefined {
  const { stations } = stationChanges(trial, moistureReadings(trial));
  const { design } = designOfStations(trial, stations);
  const answer = primaryDifference(design, { level: trial.protocol.confidence, unit: trial.protocol.outcome.unit });
  return answer.kind === 'estimated' ? answer.estimate.estimate : undefined;
}
