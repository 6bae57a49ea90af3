import type { Answer, Estimate, NotEstimated, Primary } from '../../analysis/index.js';
import { changesJson } from '../../findings/answer/changes-json.js';
import type { Relative } from '../../findings/answer/relative-change.js';
import { airJson, airRecordJson, coresJson, potentialsJson } from '../../findings/cores/cores-json.js';
import { dryingJson } from '../../findings/drying/drying-json.js';
import { wettingJson } from '../../findings/drying/wetting-json.js';
import { instrumentsJson } from '../../findings/instruments/instruments-json.js';
import { laboratoryJson } from '../../findings/laboratory/laboratory-json.js';
import { injectionJson, laterYearsJson, plasterJson } from '../../findings/plaster/works-json.js';
import { saltsJson } from '../../findings/salts/salts-json.js';
import { sensorLogJson } from '../../findings/sensor-log/sensor-log-json.js';
import { seriesJson } from '../../findings/two-walls/series-json.js';
import { waterSourceJson } from '../../findings/water-source/water-source-json.js';
import {
  estimateInWords,
  labelOf,
  readingLeftOutInWords,
  reasonInWords,
  wallLeftOutInWords,
} from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { Threat } from '../../opinion/threats/threat.js';
import { rowsOfOpinion } from '../../tables/index.js';
import type { BesideOpinion } from '../beside-opinion.js';
import type { ReportDocument } from '../document.js';
import { reportDocument } from '../report-document.js';
import { agreementJson } from './agreement-json.js';
import { chartsJson } from './charts-json.js';
import { electricalJson } from './electrical-json.js';
import { errorRatesJson } from './error-rates-json.js';
import { judgingJson } from './judging-json.js';
import { lockJson } from './lock-json.js';
import { nextTrialJson } from './next-trial-json.js';

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/**
 * The opinion as `fairwall-opinion/1`: keys in a fixed order, `null` where something was not estimated, never a number
 * that is none. The same opinion gives the same bytes. Its layout is `datasets/opinion.schema.json`, and
 * `datasets/opinion-json.md` explains it; the primary answer can be computed again from `plan` and `walls` alone.
 *
 * @param report whose charts' data go in; made anew where it is not at hand
 * @throws where a number of the opinion is not finite, naming its place: that is a mistake in the program, not in the trial.
 */
export function opinionJson(opinion: Opinion, beside: BesideOpinion = {}, report?: ReportDocument): string {
  const facts = documentOf(opinion, beside);
  requireFinite(facts, '');
  const document = { ...facts, charts: plain(chartsJson(report ?? reportDocument(opinion, beside))) };
  return `${JSON.stringify(document, alikeEverywhere, 2)}\n`;
}

/** To twelve significant digits: engines of several years differ in the sixteenth, and their files should not. */
function alikeEverywhere(_: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(12)) : value;
}

function documentOf(opinion: Opinion, { errorRates, nextTrial }: BesideOpinion): { readonly [key: string]: Json } {
  const { protocol, verdict } = opinion;
  const rows = rowsOfOpinion(opinion);
  return {
    format: 'fairwall-opinion/1',
    trial: { title: protocol.title, fingerprint: opinion.fingerprint },
    verdict: {
      code: verdict.code,
      sentence: verdict.sentence,
      evidence: verdict.evidence,
      weaknesses: verdict.weaknesses.map(({ code, seriousness, text, remedy }) => ({
        code,
        seriousness,
        text,
        remedy,
      })),
    },
    threats: opinion.threats.map(threatOf),
    primary: primaryOf(opinion.primary, opinion),
    analyses: opinion.analyses
      .flatMap(estimated)
      .map((estimate) => ({ ...answerOf(estimate), pValue: estimate.pValue ?? null, ...madeOf(estimate) })),
    effectSizes: opinion.effectSizes
      .flatMap(estimated)
      .map((estimate) => ({ ...answerOf(estimate), ...madeOf(estimate) })),
    margin: marginOf(opinion),
    relative: relativeOf(opinion),
    notEstimated: notEstimated(opinion).map((one) => ({
      ...{ id: one.id, label: labelOf(one), reason: reasonInWords(one.reason) },
      why: plain(one.reason),
    })),
    instruments: instrumentsJson(opinion.instruments),
    ...(opinion.cores === undefined ? {} : { cores: coresJson(opinion.cores) }),
    ...(opinion.air === undefined ? {} : { air: airJson(opinion.air) }),
    ...(opinion.salts === undefined ? {} : { salts: saltsJson(opinion.salts) }),
    ...(opinion.airRecord === undefined ? {} : { airRecord: airRecordJson(opinion.airRecord) }),
    ...(opinion.waterSource === undefined ? {} : { waterSource: waterSourceJson(opinion.waterSource) }),
    ...(opinion.potentials === undefined ? {} : { potentials: potentialsJson(opinion.potentials) }),
    ...(opinion.electrical === undefined ? {} : { electrical: electricalJson(opinion.electrical) }),
    units: unitsOf(opinion),
    leftOut: leftOutOf(opinion),
    ...ledgerOf(opinion),
    ...(opinion.series === undefined ? {} : { series: seriesJson(opinion.series) }),
    ...(opinion.laterYears === undefined ? {} : { laterYears: laterYearsJson(opinion.laterYears) }),
    ...(opinion.plaster === undefined ? {} : { plaster: plasterJson(opinion.plaster) }),
    ...(opinion.injection === undefined ? {} : { injection: injectionJson(opinion.injection) }),
    ...(opinion.drying === undefined ? {} : { drying: dryingJson(opinion.drying) }),
    ...(opinion.wetting === undefined ? {} : { wetting: wettingJson(opinion.wetting) }),
    ...(opinion.laboratory === undefined ? {} : { laboratory: laboratoryJson(opinion.laboratory) }),
    ...(opinion.judging === undefined ? {} : { judging: judgingJson(opinion.judging) }),
    ...(opinion.sensorLog === undefined ? {} : { sensorLog: sensorLogJson(opinion.sensorLog) }),
    ...commissionOf(opinion),
    ...(opinion.lock === undefined ? {} : { lock: lockJson(opinion.lock) }),
    ...(errorRates === undefined ? {} : { errorRates: errorRatesJson(errorRates) }),
    ...(nextTrial === undefined ? {} : { nextTrial: nextTrialJson(nextTrial) }),
    version: opinion.version,
    seed: opinion.seed,
    plan: plain(protocol),
    walls: rows.wall_changes.map((row) => ({ ...row })),
    stations: rows.station_changes.map((row) => ({ ...row })),
    armMeans: rows.arm_means.map((row) => ({ ...row })),
    changes: changesJson(opinion.changes, protocol.outcome.unit),
    heights: rows.height_means.map((row) => ({ ...row })),
    agreement: agreementJson(opinion.agreement),
  };
}

function threatOf(threat: Threat): Json {
  const { code, domain, name, lookedFor, finding, text, direction, tipping, restsOn, remedy, measure } = threat;
  return {
    ...{ code, domain, name, lookedFor, finding, seriousness: threat.seriousness ?? null, text },
    needs: threat.needs ?? null,
    measure:
      measure === undefined
        ? null
        : {
            ...{ value: measure.value, unit: measure.unit },
            interval: measure.interval === undefined ? null : { ...measure.interval },
            pValue: measure.pValue ?? null,
          },
    ...{ direction, tipping, tippingPoint: threat.tippingPoint ?? null, restsOn: [...restsOn], remedy },
    decidedBy: threat.decidedBy.map((figure) => ({ ...figure })),
  };
}

/** Its fingerprint, and who wrote for whom; the texts stand in the report. */
function commissionOf({ commission }: Opinion): { readonly [key: string]: Json } {
  if (commission === undefined) return {};
  const { fingerprint, author, client, opinionOn, photographs } = commission;
  const files = photographs.map(({ file }) => file);
  return {
    commission: {
      fingerprint,
      ...{ author: author ?? null, client: client ?? null, opinionOn: opinionOn ?? null, photographs: files },
    },
  };
}

/** The margin that the verdict was held against, and where it comes from. */
function marginOf({ protocol, marginOrigin }: Opinion): Json {
  const { margin, marginSource, passMark, outcome } = protocol;
  if (margin === undefined || marginOrigin.kind === 'none') return null;
  const stated = { value: margin, unit: outcome.unit };
  if (marginOrigin.kind === 'stated') return { ...stated, from: 'protocol', source: marginSource ?? null };
  const { before, walls } = marginOrigin;
  return { ...stated, from: 'pass-mark', source: passMark?.source ?? null, before, walls };
}

function primaryOf(primary: Primary, { protocol, leftOutWalls }: Opinion): Json {
  const leftOut = leftOutWalls.map(({ wall }) => wall);
  if (primary.kind === 'not-estimated') {
    return {
      id: 'wall-change',
      method: null,
      unit: protocol.outcome.unit,
      estimate: primary.difference ?? null,
      interval: null,
      standardError: null,
      degreesOfFreedom: null,
      pValue: null,
      walls: { ...wallsOf(primary.walls), leftOut },
    };
  }
  const { method, estimate } = primary;
  return {
    id: 'wall-change',
    method,
    unit: estimate.unit,
    estimate: estimate.estimate,
    interval: intervalOf(estimate),
    standardError: estimate.standardError ?? null,
    degreesOfFreedom: estimate.degreesOfFreedom ?? null,
    pValue: estimate.pValue ?? null,
    walls: { ...wallsOf(estimate.walls), leftOut },
    ...wordsOf(estimate),
  };
}

/** In percent of the before values. */
function relativeOf({ relative }: Opinion): Json {
  if (relative === undefined) return null;
  const part = (of: Relative | undefined): Json =>
    of === undefined
      ? null
      : { estimate: of.estimate_pct, interval: of.interval === undefined ? null : { ...of.interval }, walls: of.walls };
  const { sides, difference } = relative;
  return {
    ...{ unit: '% of the before value', method: 'fieller' },
    ...{ treated: part(sides.treated), untreated: part(sides.untreated), difference: part(difference) },
  };
}

function wallsOf({ treated, untreated }: Estimate['walls']) {
  return { treated, untreated };
}

function answerOf(estimate: Estimate) {
  return { id: estimate.id, estimate: estimate.estimate, interval: intervalOf(estimate) };
}

/** What is known of an analysis beyond its number, in words and as facts. */
function madeOf(estimate: Estimate) {
  return {
    ...wordsOf(estimate),
    unit: estimate.unit,
    standardError: estimate.standardError ?? null,
    degreesOfFreedom: estimate.degreesOfFreedom ?? null,
    walls: wallsOf(estimate.walls),
    monteCarlo: estimate.monteCarlo === undefined ? null : { ...estimate.monteCarlo },
  };
}

function wordsOf(estimate: Estimate) {
  const { label, quantity, method, assumptions, source } = estimateInWords(estimate);
  return {
    ...{ label, quantity, methodInWords: method, assumptions, source: source ?? null },
    facts: plain(estimate.method),
  };
}

/** A record of the library as JSON: what is absent is left out. */
function plain(value: unknown): Json {
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== 'object' || value === null) return value as Json;
  const kept = Object.entries(value).filter(([, inner]) => inner !== undefined);
  return Object.fromEntries(kept.map(([key, inner]) => [key, plain(inner)]));
}

function intervalOf({ interval }: Estimate) {
  return interval === undefined ? null : { level: interval.level, lower: interval.lower, upper: interval.upper };
}

function estimated(answer: Answer): readonly Estimate[] {
  return answer.kind === 'estimated' ? [answer.estimate] : [];
}

function notEstimated({ primary, analyses, effectSizes }: Opinion): readonly NotEstimated[] {
  const own = primary.kind === 'estimated' ? [] : [{ id: 'wall-change', reason: primary.reason }];
  const others = [...analyses, ...effectSizes].flatMap((answer) =>
    answer.kind === 'estimated' ? [] : [answer.notEstimated],
  );
  return [...own, ...others];
}

/** What the comparison counts; the walls of each where it is not walls. */
function unitsOf({ units: { kind, members, isStated } }: Opinion): Json {
  if (kind === 'wall') return { kind, isStated };
  return { kind, isStated, members: [...members].map(([unit, walls]) => ({ unit, walls })) };
}

function leftOutOf({ leftOutWalls, leftOutReadings }: Opinion): Json {
  return {
    walls: leftOutWalls.map(({ wall, reason }) => ({ wall, reason: wallLeftOutInWords(reason) })),
    readings: leftOutReadings.map(({ reason, count, origins }) => ({
      reason: readingLeftOutInWords(reason),
      count,
      rows: origins.map(({ file, row }) => ({ file, row })),
    })),
  };
}

function requireFinite(value: Json, path: string): void {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new RangeError(`opinion.json: ${path} is ${value}; every number of an opinion must be finite`);
  }
  if (typeof value !== 'object' || value === null) return;
  for (const [key, each] of Object.entries(value)) requireFinite(each, path === '' ? key : `${path}.${key}`);
}

/** Of the folder, what was mended and what was not used, where there is any. */
function ledgerOf({ ledger }: Opinion): { readonly [key: string]: Json } {
  if (ledger === undefined) return {};
  const { mended, notUsed } = ledger;
  return {
    ...(mended.length === 0 ? {} : { mended: mended.map((one) => ({ ...one })) }),
    ...(notUsed.length === 0 ? {} : { notUsed: notUsed.map((one) => ({ ...one })) }),
  };
}
