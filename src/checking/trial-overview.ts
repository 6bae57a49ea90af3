import { type Visit, visitsOf } from '../findings/visits.js';
import { moistureReadings } from '../moisture/index.js';
import { type Evidence, verdictOfTrial } from '../opinion/index.js';
import type { Trial } from '../trial/index.js';
import { type Ability, abilitiesOf } from './abilities.js';
import { calibrationChecks } from './calibration-checks.js';
import { type CoreStatement, coreStatements, evidenceAtBest } from './core-statements.js';
import { type CountRow, countsByHeight, countsByWall } from './reading-counts.js';
import { type Spread, spreadsOf } from './spreads.js';
import { withoutArms } from './without-arms.js';

/** What a check says of a trial. Nothing in it tells an outcome by arm. */
export interface TrialOverview {
  readonly protocol: Trial['protocol'];
  /** Of the outcome. */
  readonly visits: readonly Visit[];
  readonly byWall: readonly CountRow[];
  readonly byHeight: readonly CountRow[];
  readonly spreads: readonly Spread[];
  readonly statements: readonly CoreStatement[];
  readonly evidenceAtBest: Evidence;
  readonly abilities: readonly Ability[];
}

/**
 * Counts what a trial holds, finds what it leaves unsaid and what it can answer. Whatever it says of outcomes is computed with all walls
 * in one arm; of the arms it counts walls.
 */
export function trialOverview(trial: Trial): TrialOverview {
  const { outcome, instruments } = trial.protocol;
  const blind = withoutArms(trial);
  const all = moistureReadings(blind);
  const readings = all.filter(({ instrument }) => instrument === outcome.instrument);
  const isLogged = instruments.some((one) => one.instrument === outcome.instrument && one.kind === 'embedded-sensor');
  const visits = visitsOf(readings, isLogged ? 'month' : 'place');
  const judged = verdictOfTrial(trial);
  const calibrations = calibrationChecks(blind, all);
  return {
    protocol: trial.protocol,
    visits,
    byWall: countsByWall(blind, visits),
    byHeight: countsByHeight(blind, visits),
    spreads: spreadsOf(blind, all, visits),
    statements: coreStatements(judged),
    evidenceAtBest: evidenceAtBest(judged),
    abilities: abilitiesOf({ trial, judged, readings, visits, calibrations }),
  };
}
