import { type Outcome, type Problem, type Protocol, waterSources } from '../../trial/index.js';
import { isOfRealSize } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';
import { lockFile, protocolFile } from '../folder/table-layouts.js';
import { alternatives } from '../quoted.js';
import { noFindings, type ProtocolFindings } from './findings.js';
import { type JsonDocument, jsonDocument } from './json-document.js';
import {
  choiceOf,
  dayOf,
  fieldsOf,
  flagOf,
  type JsonFields,
  numberOf,
  optionalTextOf,
  refuse,
  textOf,
} from './json-fields.js';
import { planDocument } from './plan-document.js';
import { readAdjustments } from './read-adjustments.js';
import { readArms } from './read-arms.js';
import { readCalibration } from './read-calibration.js';
import { readComparison } from './read-comparison.js';
import { readInstruments } from './read-instruments.js';
import { readScreened, readSecondary } from './read-judging.js';
import { readNaming } from './read-naming.js';
import { readOutcome } from './read-outcome.js';
import { readPassMark } from './read-pass-mark.js';
import { readPlanning } from './read-planning.js';
import { readTreatment } from './read-treatment.js';
import { readWindows } from './read-windows.js';

export const format = 'fairwall-trial/1';
const keys = [
  'format',
  'title',
  'claim',
  'outcome',
  'margin',
  'confidence',
  'arms',
  'instruments',
  'windows',
  'allocation',
  'selection',
  'blinding',
  'disclosures',
  'plannedOn',
  'compare',
  'marginSource',
  'passMark',
  'secondary',
  'screened',
  'unaffectedAbove_mm',
  'claimedField_v_per_m',
  'dryBelow',
  'adjustments',
  'treatment',
  'against',
  'calibration',
  'planning',
  'columns',
  'sheets',
  'ignore',
  'dateOrder',
  'placesOfCores',
];
export const methods = ['randomised', 'randomised-in-blocks', 'matched-pairs', 'chosen'] as const;
export const units = ['wall', 'site'] as const;
export const selections = ['wettest', 'not-by-moisture'] as const;

/** Reads `protocol.json`; what is no JSON is no plan. */
export function readProtocol(text: string, problems: Problem[], file: string = protocolFile): ProtocolFindings {
  const before = problems.length;
  const document = jsonDocument(file, text, problems);
  return document === undefined ? noFindings : readPlan(file, document, before, problems);
}

/** Reads the plan from its table, a key a row. */
export function readPlanTable(table: Table, problems: Problem[]): ProtocolFindings {
  const before = problems.length;
  const document = planDocument(table, format, problems);
  return document === undefined
    ? { ...noFindings, file: table.place }
    : readPlan(table.place, document, before, problems);
}

/**
 * Reads the plan.
 *
 * May be absent, and what is then taken: `margin`, `windows`, `plannedOn`, `selection`, and what only the judging asks for
 * (`marginSource`, `passMark`, `secondary`, `screened`, `unaffectedAbove_mm`, `claimedField_v_per_m`, `adjustments`, `treatment`, `planning`: nothing was stated: a weakness of the trial, not
 * bad input), `dryBelow` (no moisture at which a wall is dry), `against` (rising damp), `compare` (every treated role against all others), `blinding` and any key in it (nobody was kept from
 * knowing), `disclosures` and any key in it (nothing was disclosed), `allocation.by`, `allocation.seed`, `allocation.unit`. All else is needed.
 */
export function readPlan(file: string, document: JsonDocument, before: number, problems: Problem[]): ProtocolFindings {
  const root = fieldsOf({ document, node: document.root, path: '' }, keys);
  if (root === undefined) return { ...noFindings, file };

  readFormat(root);
  const title = textOf(root.need('title', 'a title'), 'a title');
  const claim = textOf(root.need('claim', 'the claim under trial'), 'the claim under trial, in a sentence');
  const arms = readArms(root);
  const instruments = readInstruments(root);
  const outcome = readOutcome(root, instruments);
  const margin = numberOf(root.get('margin'), 'a number above 0, in the unit of the outcome', isMargin);
  const confidence = numberOf(root.need('confidence', levelExpected), levelExpected, isLevel);
  const windows = readWindows(root);
  const allocation = readAllocation(root, file);
  const against = choiceOf(root.get('against'), waterSources);
  const selection = choiceOf(root.get('selection'), selections);
  const blinding = readBlinding(root);
  const disclosures = readDisclosures(root);
  const plannedOn = dayOf(root.get('plannedOn'));
  const compare = readComparison(root, arms);
  const marginSource = optionalTextOf(root.get('marginSource'), 'a text: where the margin comes from');
  const passMark = readPassMark(root, { instruments, outcome, windows });
  const secondary = readSecondary(root, instruments, outcome);
  const screened = readScreened(root);
  const unaffected = 'a height in mm above 0, above which the treatment cannot act';
  const dryBelow = readDryBelow(root, outcome);
  const adjustments = readAdjustments(root);
  const treatment = readTreatment(root);
  const field = 'a field in volts for each metre, above 0';
  const claimedField_v_per_m = numberOf(root.get('claimedField_v_per_m'), field, isMargin);
  const unaffectedAbove_mm = numberOf(root.get('unaffectedAbove_mm'), unaffected, isMargin);

  const calibration = readCalibration(root);
  const planning = readPlanning(root, arms, margin);
  const naming = readNaming(root);
  const placesUnknown = choiceOf(root.get('placesOfCores'), ['unknown']) === 'unknown';

  const sound = problems.length === before;
  const protocol = {
    title,
    claim,
    outcome,
    confidence,
    arms,
    instruments,
    allocation,
    blinding,
    disclosures,
    ...(margin === undefined ? {} : { margin }),
    ...(selection === undefined ? {} : { selection }),
    ...(windows === undefined ? {} : { windows }),
    ...(plannedOn === undefined ? {} : { plannedOn }),
    ...(against === undefined ? {} : { against }),
    ...(compare === undefined ? {} : { compare }),
    ...(marginSource === '' ? {} : { marginSource }),
    ...(passMark === undefined ? {} : { passMark }),
    ...(secondary === undefined ? {} : { secondary }),
    ...(screened === undefined ? {} : { screened }),
    ...(unaffectedAbove_mm === undefined ? {} : { unaffectedAbove_mm }),
    ...(claimedField_v_per_m === undefined ? {} : { claimedField_v_per_m }),
    ...(dryBelow === undefined ? {} : { dryBelow }),
    ...(adjustments === undefined ? {} : { adjustments }),
    ...(treatment === undefined ? {} : { treatment }),
    ...(calibration === undefined ? {} : { calibration }),
    ...(planning === undefined ? {} : { planning }),
  } as Protocol;
  return {
    file,
    naming,
    placesUnknown,
    ...(sound ? { protocol } : {}),
    ...(arms === undefined ? {} : { arms }),
    ...(instruments === undefined ? {} : { instruments }),
    ...(outcome === undefined ? {} : { outcome }),
    ...(windows === undefined ? {} : { windows }),
    ...(allocation?.method === undefined ? {} : { method: allocation.method }),
    ...(allocation?.unit === undefined ? {} : { unit: allocation.unit }),
    ...(compare === undefined ? {} : { compare }),
    refuseKey: (key, found, expected) => refuse(root.get(key) ?? root.place, expected, { found }),
  };
}

/** Of an outcome that is better the higher it is, no value says that a wall is dry. */
function readDryBelow(root: JsonFields, outcome: Partial<Outcome> | undefined): number | undefined {
  const place = root.get('dryBelow');
  const expected = 'the moisture at or below which a wall counts as dry, a number above 0, in the unit of the outcome';
  const limit = numberOf(place, expected, isMargin);
  if (place !== undefined && outcome?.better === 'higher')
    refuse(place, 'no key dryBelow where the outcome is better the higher it is');
  return limit;
}

function isMargin(value: number): boolean {
  return value > 0 && isOfRealSize(value);
}

const levelExpected = 'the level of the intervals, above 0.5 and at most 0.999, such as 0.95';

/** Our convention: of a few walls nothing is known with more certainty, and limits of exponentials leave the range of numbers. */
function isLevel(value: number): boolean {
  return value > 0.5 && value <= 0.999;
}

function readFormat(root: JsonFields): void {
  const place = root.need('format', `"${format}"`);
  if (place !== undefined && place.node.value !== format) refuse(place, `"${format}"`, { suggestion: format });
}

const digestExpected = 'the SHA-256 of the seed, 64 digits';

function readAllocation(root: JsonFields, file: string): Partial<Protocol['allocation']> | undefined {
  const place = root.need(
    'allocation',
    `how the walls came to their arms, an object with the key method: ${alternatives(methods)}`,
  );
  // A plan states its seed; a seal, a digest of it, or in older files the seed.
  const sealedKeys = file === lockFile ? ['seedSha256'] : [];
  const fields = place && fieldsOf(place, ['method', 'unit', 'seed', 'by', 'mostBeforeDifference', ...sealedKeys]);
  if (fields === undefined) return undefined;
  const method = choiceOf(fields.need('method', alternatives(methods)), methods);
  const unit = choiceOf(fields.get('unit'), units);
  const seed = numberOf(fields.get('seed'), 'a whole number', Number.isSafeInteger);
  const digest = fields.get('seedSha256');
  const seedSha256 = textOf(digest, digestExpected);
  if (digest !== undefined && !/^[0-9a-f]{64}$/.test(seedSha256 ?? '')) refuse(digest, digestExpected);
  const most =
    'the largest difference of the sides’ before means that was let pass, above 0, in the unit of the outcome';
  const mostPlace = fields.get('mostBeforeDifference');
  const mostBeforeDifference = numberOf(mostPlace, most, isMargin);
  if (mostPlace !== undefined && method === 'chosen')
    refuse(mostPlace, 'no key mostBeforeDifference where walls were chosen and nothing was drawn');
  const by = optionalTextOf(fields.get('by'), 'a text: who allocated the walls');
  return {
    by,
    ...(method === undefined ? {} : { method }),
    ...(unit === undefined ? {} : { unit }),
    ...(seed === undefined ? {} : { seed }),
    ...(seedSha256 === undefined ? {} : { seedSha256 }),
    ...(mostBeforeDifference === undefined ? {} : { mostBeforeDifference }),
  };
}

/** Whoever is not said to have been kept from knowing is taken to have known. */
function readBlinding(root: JsonFields): Protocol['blinding'] {
  const place = root.get('blinding');
  const fields = place && fieldsOf(place, ['readers', 'occupants', 'analyst']);
  return {
    readers: flagOf(fields?.get('readers')) ?? false,
    occupants: flagOf(fields?.get('occupants')) ?? false,
    analyst: flagOf(fields?.get('analyst')) ?? false,
  };
}

function readDisclosures(root: JsonFields): Protocol['disclosures'] {
  const place = root.get('disclosures');
  const fields = place && fieldsOf(place, ['funding', 'interests']);
  return {
    funding: optionalTextOf(fields?.get('funding'), 'a text: who paid for the trial'),
    interests: optionalTextOf(fields?.get('interests'), 'a text: who gains by its outcome'),
  };
}
