import {
  baselineAdjusted,
  bootstrapDifference,
  clusterRobustDifference,
  comparisonDesign,
  comparisonSides,
  effectSizes,
  mixedModel,
  pairedSeries,
  primaryDifference,
  randomisation,
  type Side,
  smallestPOfDesign,
  stationChanges,
  wallChanges,
  withoutWalls,
} from '../analysis/index.js';
import { moistureReadings } from '../moisture/index.js';
import type { Trial } from '../trial/index.js';
import { airOfTrial } from './air/air-of-trial.js';
import { coresOfTrial } from './cores/cores-of-trial.js';
import { dryingChecks } from './drying/drying-checks.js';
import { dryingOfTrial } from './drying/drying-of-trial.js';
import { wettingOfTrial } from './drying/wetting-of-trial.js';
import { evidenceFrom } from './evidence.js';
import { instrumentsOf } from './instruments/instruments-of.js';
import { judgeTrial } from './judging/judge-trial.js';
import { withMargin } from './margin-of-trial.js';
import { measurementOf } from './measurement.js';
import type { Opinion, Verdict, VerdictCode } from './opinion.js';
import { potentialsOfTrial } from './potentials/potentials-of-trial.js';
import { seedOfRecords } from './seed-of-records.js';
import { sensorPlaces } from './sensor-log/sensor-places.js';
import { timelineOf } from './timeline.js';
import { seriesAnswers, seriesOfTwoWalls } from './two-walls/two-wall-series.js';
import { verdictCode } from './verdict-code.js';
import { verdictSentence } from './verdict-sentence.js';
import { packageVersion } from './version.js';
import type { Facts } from './weaknesses/facts.js';
import { findWeaknesses } from './weaknesses/find-weaknesses.js';

export interface OpinionOptions {
  /** Seed of everything random. Default: from what was recorded, so that nobody can try seeds until one suits. */
  readonly seed?: number;
  /** Called now and then with the share of the work that is done. */
  readonly onProgress?: (share: number) => void;
}

/**
 * From a checked trial to an opinion. The same trial and seed give the same opinion.
 *
 *     readings ──1──▶ stations ──2──▶ walls ──3──▶ design ──4──▶ estimates ──5──▶ weaknesses ──6──▶ verdict
 *     (moisture)      before, after   change       pairs, …      intervals        evidence          in words
 *
 * @example formOpinion(trial).verdict.code // 'worthwhile'
 */
export function formOpinion(planned: Trial, options: OpinionOptions = {}): Opinion {
  const { source } = planned;
  const { onProgress = () => {} } = options;
  const seed = options.seed ?? seedOfRecords(planned);

  // 1. Cores become moisture; a station has a mean before and a mean after. A pass mark becomes a margin by the means before.
  const readings = moistureReadings(planned);
  const allStations = stationChanges(planned, readings);
  const { trial, origin: marginOrigin } = withMargin(planned, allStations.stations);
  const { protocol } = trial;

  // 2. A wall's change is the mean over its stations.
  const changes = wallChanges(trial, allStations.stations);

  // 3. How the walls are arranged decides the method.
  const { design, leftOut } = comparisonDesign(changes.walls);
  const leftOutWalls = [...changes.leftOut, ...leftOut];
  const stations = withoutWalls(allStations, leftOut);

  onProgress(0.05);

  // 4. The primary answer, and others beside it.
  const analysis = { level: protocol.confidence, unit: protocol.outcome.unit, seed };
  const sides = sidesOfWalls(trial);
  const twoWalls = seriesOfTwoWalls(trial, stations.used, design, sides);
  const primary =
    twoWalls === undefined ? primaryDifference(design, analysis) : pairedSeries(twoWalls.series, analysis);
  const analyses = [
    baselineAdjusted(design, analysis),
    randomisation(design, { ...analysis, allocation: protocol.allocation.method }),
    mixedModel(design, stations.stations, analysis),
    clusterRobustDifference(design, stations.stations, analysis),
    bootstrapDifference(design, analysis),
    ...seriesAnswers({ trial, used: stations.used, design, twoWalls, seed }),
  ];

  onProgress(0.4);

  // 5. and 6. What a hostile reader would raise, and what may be said in spite of it.
  const smallestPossibleP = smallestPOfDesign(design);
  const facts: Facts = {
    trial,
    marginOrigin,
    sides,
    walls: design.walls,
    leftOutWalls,
    stations: stations.stations,
    used: stations.used,
    leftOutReadings: stations.leftOut,
    primary,
    analyses,
    ...(twoWalls === undefined ? {} : { series: twoWalls }),
    ...(smallestPossibleP === undefined ? {} : { smallestPossibleP }),
    drying: dryingChecks(trial, readings, sides, design.walls),
  };
  const wetting = wettingOfTrial(trial, readings);
  const cores = coresOfTrial(trial, sides);
  const air = airOfTrial(trial, sides);
  const potentials = potentialsOfTrial(trial, sides);
  const instruments = instrumentsOf(trial, readings);
  const verdict = verdictOn(facts);
  onProgress(0.5);
  const drying = dryingOfTrial(trial, readings, sides);
  const adjusted = drying.kind === 'not-shown' ? [] : drying.adjusted;
  const judging = judgeTrial({ facts, code: verdict.code, readings, design, analyses, adjusted, instruments });
  onProgress(0.8);
  return {
    protocol,
    marginOrigin,
    fingerprint: source.fingerprint,
    files: source.files,
    version: packageVersion(),
    seed,
    verdict,
    primary,
    analyses,
    effectSizes: effectSizes(design, primary, { level: protocol.confidence, better: protocol.outcome.better }),
    walls: design.walls,
    stations: stations.stations,
    leftOutWalls,
    leftOutReadings: stations.leftOut,
    measurement: measurementOf(trial, stations.used),
    instruments,
    timeline: timelineOf(trial, readings),
    ...(cores === undefined ? {} : { cores }),
    ...(air.length === 0 ? {} : { air }),
    ...(potentials.length === 0 ? {} : { potentials }),
    ...(twoWalls === undefined ? {} : { series: twoWalls }),
    drying,
    ...(wetting === undefined ? {} : { wetting }),
    ...(trial.sensorLog === undefined ? {} : { sensorLog: trial.sensorLog, sensorPlaces: sensorPlaces(trial) }),
    ...(judging === undefined ? {} : { judging }),
  };
}

function verdictOn(facts: Facts): Verdict {
  const weaknesses = findWeaknesses(facts);
  const evidence = evidenceFrom(weaknesses);
  const { protocol } = facts.trial;
  const { primary, walls } = facts;
  const code: VerdictCode =
    evidence === 'none' || primary.kind === 'not-estimated' || protocol.margin === undefined
      ? 'not-answerable'
      : verdictCode(primary.estimate.interval, protocol.margin, protocol.outcome.better);
  const sentence = verdictSentence({ code, evidence, protocol, primary, walls, weaknesses });
  return { code, sentence, evidence, weaknesses };
}

function sidesOfWalls({ protocol, walls }: Trial): ReadonlyMap<string, Side> {
  const sides = comparisonSides(protocol);
  return new Map(
    walls.flatMap(({ wall, arm }): [string, Side][] => {
      const side = sides.get(arm);
      return side === undefined ? [] : [[wall, side]];
    }),
  );
}
