import {
  type Answer,
  armMeans,
  bootstrapDifference,
  clusterRobustDifference,
  effectSizes,
  mixedModel,
  randomisation,
} from '../analysis/index.js';
import { airOfTrial } from '../findings/air/air-of-trial.js';
import { airRecord } from '../findings/air/air-record.js';
import { changesOfArms } from '../findings/answer/changes-of-arms.js';
import { curveOfPrimary } from '../findings/answer/curve-of-primary.js';
import { relativeChange } from '../findings/answer/relative-change.js';
import { coresOfTrial } from '../findings/cores/cores-of-trial.js';
import { humidShare } from '../findings/cores/humid-share.js';
import { dryingOfTrial } from '../findings/drying/drying-of-trial.js';
import { startsOfWalls } from '../findings/drying/starts-of-walls.js';
import { wettingOfTrial } from '../findings/drying/wetting-of-trial.js';
import { electricalPart } from '../findings/electrical/electrical-part.js';
import { wallsInElevation } from '../findings/elevation/walls-in-elevation.js';
import { heightsOfArms } from '../findings/heights/heights-of-arms.js';
import { instrumentsOf } from '../findings/instruments/instruments-of.js';
import { laboratoryOfTrial } from '../findings/laboratory/laboratory-of-trial.js';
import { laterYears } from '../findings/later-years/later-years.js';
import { measurementOf } from '../findings/measurement.js';
import { potentialsOfTrial } from '../findings/potentials/potentials-of-trial.js';
import { saltsOfTrial } from '../findings/salts/salts-of-trial.js';
import { sensorPlaces } from '../findings/sensor-log/sensor-places.js';
import { timelineOf } from '../findings/timeline.js';
import { seriesAnswers } from '../findings/two-walls/two-wall-series.js';
import { waterFacts, waterSource } from '../findings/water-source/water-source-of-trial.js';
import { present } from '../plain/present.js';
import type { Trial } from '../trial/index.js';
import { agreementOfAnalyses } from './agreement-of-analyses.js';
import { judgeTrial } from './judging/judge-trial.js';
import { lockPart } from './lock/lock-part.js';
import type { Opinion } from './opinion.js';
import { seedOfRecords } from './seed-of-records.js';
import { stationsLost } from './threats/missing/stations.js';
import { type TrialVerdict, verdictOfTrial } from './verdict-of-trial.js';
import { packageVersion } from './version.js';

export interface OpinionOptions {
  /** Seed of everything random. Default: from what was recorded, so that nobody can try seeds until one suits. */
  readonly seed?: number;
  /** Called now and then with the share of the work that is done. */
  readonly onProgress?: (share: number) => void;
}

/** Where stations were lost unevenly, the answer on those that both arms kept stands beside the primary one. */
function onCommonPlaces({ threats, numbers }: TrialVerdict): readonly Answer[] {
  const isUneven = threats.some(({ code, finding }) => code === stationsLost.code && finding === 'found');
  return isUneven ? [numbers.commonPlaces] : [];
}

/**
 * From a checked trial to an opinion: the verdict first, then what stands beside it. The same trial and seed give the same opinion.
 *
 * @example formOpinion(trial).verdict.code // 'worthwhile'
 */
export function formOpinion(planned: Trial, options: OpinionOptions = {}): Opinion {
  const { source } = planned;
  const { onProgress = () => {} } = options;
  const seed = options.seed ?? seedOfRecords(planned);

  // 1. The verdict, the threats to it and the evidence: nothing below moves them.
  const judged = verdictOfTrial(planned, seed);
  const { trial, readings, design, facts, verdict, twoWalls } = judged;
  const { protocol } = trial;
  onProgress(0.2);

  // 2. Other analyses of the same question.
  const analysis = { level: protocol.confidence, unit: protocol.outcome.unit, seed };
  const { method, mostBeforeDifference } = protocol.allocation;
  const [adjustedForBefore] = facts.analyses;
  const analyses = [
    ...(adjustedForBefore === undefined ? [] : [adjustedForBefore]),
    randomisation(design, {
      ...{ ...analysis, allocation: method },
      ...present({ mostBeforeDifference }),
    }),
    mixedModel(design, facts.stations, analysis),
    clusterRobustDifference(design, facts.stations, analysis),
    bootstrapDifference(design, analysis),
    ...onCommonPlaces(judged),
    ...seriesAnswers({ trial, used: judged.readInBoth, design, twoWalls, units: facts.units.units, seed }),
  ];
  const curve = curveOfPrimary(facts.primary, twoWalls?.series);
  const relative = relativeChange(design, facts.primary, analysis);
  onProgress(0.4);

  // 3. What the trial says beyond the answer.
  const { sides } = facts;
  const armed = { protocol, walls: facts.walls };
  const elevation = wallsInElevation(trial, facts.stations, facts.walls);
  const laboratory = laboratoryOfTrial(trial, sides);
  const wetting = wettingOfTrial(trial, readings);
  const cores = coresOfTrial(trial, sides);
  const air = airOfTrial(trial, sides);
  const salts = saltsOfTrial(trial, sides);
  const record = airRecord(trial, sides);
  const water = waterSource({ ...waterFacts(trial, facts.used, sides), ...humidShare(cores?.hygroscopic) });
  const potentials = potentialsOfTrial(trial, sides);
  const starts = startsOfWalls(trial, sides);
  const outcome = readings.filter(({ instrument }) => instrument === protocol.outcome.instrument);
  const later = starts?.startIs === 'treatment' ? laterYears(trial, outcome, starts.startOf) : [];
  const { plaster, injection } = judged.numbers;
  const electrical = electricalPart(trial, sides, facts.primary);
  const instruments = instrumentsOf(trial, readings);
  onProgress(0.5);
  const drying = dryingOfTrial(trial, readings, sides, facts.units.kind, facts.drying);
  const adjusted = drying.kind === 'not-shown' ? [] : drying.adjusted;
  const judging = judgeTrial(judged, { analyses, adjusted, instruments });
  const lock = lockPart(planned, seed);
  onProgress(0.8);
  return {
    protocol,
    marginOrigin: judged.marginOrigin,
    fingerprint: source.fingerprint,
    files: source.files,
    ...present({ ledger: source.ledger, commission: planned.commission }),
    version: packageVersion(),
    seed,
    verdict,
    threats: judged.threats,
    primary: facts.primary,
    ...present({ confidenceCurve: curve, relative }),
    analyses,
    agreement: agreementOfAnalyses(protocol, facts.primary, analyses),
    effectSizes: effectSizes(design, facts.primary, { level: protocol.confidence, better: protocol.outcome.better }),
    walls: facts.walls,
    arms: armMeans(armed),
    changes: changesOfArms({ ...armed, units: facts.units }),
    units: { kind: facts.units.kind, members: facts.units.members, isStated: facts.units.isStated },
    stations: facts.stations,
    heights: heightsOfArms(armed, facts.stations),
    ...present({ elevation }),
    leftOutWalls: facts.leftOutWalls,
    leftOutReadings: facts.leftOutReadings,
    measurement: measurementOf(trial, facts.used),
    instruments,
    timeline: timelineOf(trial, readings),
    ...present({ cores }),
    ...(air.length === 0 ? {} : { air }),
    ...present({ salts, airRecord: record, waterSource: water }),
    ...(potentials.length === 0 ? {} : { potentials }),
    ...present({ electrical, series: twoWalls }),
    ...(later.length === 0 ? {} : { laterYears: later }),
    ...present({ plaster, injection }),
    drying,
    ...present({ wetting, laboratory }),
    ...(trial.sensorLog === undefined ? {} : { sensorLog: trial.sensorLog, sensorPlaces: sensorPlaces(trial) }),
    ...present({ judging, lock }),
  };
}
