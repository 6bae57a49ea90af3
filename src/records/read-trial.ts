import { present } from '../plain/present.js';
import {
  type Core,
  type NotUsed,
  type Problem,
  type Problems,
  type Protocol,
  type Reading,
  type ReadingLedger,
  type SourceFile,
  type Trial,
  TrialFolderError,
} from '../trial/index.js';
import { checkTrialOf, readCommission } from './commission/read-commission.js';
import { fingerprint } from './fingerprint.js';
import { checkPresence } from './folder/check-presence.js';
import { decodeText } from './folder/decode-text.js';
import { listFolder } from './folder/list-folder.js';
import { openFolder, readPlanRows, readTables } from './folder/read-tables.js';
import { readingNotes } from './folder/reading-notes.js';
import type { Records } from './folder/records.js';
import type { Table } from './folder/table.js';
import { lockFile, planLayout, protocolFile } from './folder/table-layouts.js';
import { otherLocks } from './lock/other-locks.js';
import { readLock } from './lock/read-lock.js';
import { noFindings } from './protocol/findings.js';
import { readPlanTable, readProtocol } from './protocol/read-protocol.js';
import { readRecords } from './read-records.js';
import { logOfTrial } from './sensor-log/log-of-trial.js';
import type { SensorLogOptions } from './sensor-log/read-sensor-log.js';
import { checkReadings } from './tables/check-readings.js';
import { massStep_g } from './tables/mass-step.js';

/** A trial, or everything that keeps its folder from being one. */
export type TrialCheck = (
  | { readonly kind: 'trial'; readonly trial: Trial }
  | { readonly kind: 'problems'; readonly problems: Problems }
) & {
  /** What was understood of the folder, be it a trial or not, and what was not used. */
  readonly ledger: ReadingLedger;
};

/** `onProgress` is called now and then with the rows of the sensor log read so far. */
export type ReadingOptions = Pick<SensorLogOptions, 'onProgress'>;

/**
 * Reads a trial folder (`fairwall-trial/1`) and checks it as a whole.
 *
 * @throws TrialFolderError once, with every problem of every file.
 * @example (await readTrial('datasets/two-walls')).walls.map(({ wall }) => wall) // ['W01', 'W02']
 */
export async function readTrial(folder: string, options: ReadingOptions = {}): Promise<Trial> {
  const check = await checkTrial(folder, options);
  if (check.kind === 'problems') throw new TrialFolderError(check.problems);
  return check.trial;
}

/**
 * Like `readTrial`, with the problems as a value.
 *
 *     bytes -> texts and sheets -> tables with their columns -> records held against each other -> the trial
 *
 * Every stage goes on with whatever the one before could make out, so that one pass finds all problems.
 *
 * @example (await checkTrial('datasets')).problems[0].expected // 'a trial folder'
 */
export async function checkTrial(folder: string, options: ReadingOptions = {}): Promise<TrialCheck> {
  return checkFolder(folder, { ...options, needsReadings: true });
}

/** Like `checkTrial`; a folder whose plan is to be sealed needs no readings yet. */
export async function checkFolder(
  folder: string,
  { needsReadings, ...options }: ReadingOptions & { readonly needsReadings: boolean },
): Promise<TrialCheck> {
  const problems: Problem[] = [];
  const notes = readingNotes();
  const refused = () => ({ ...problemsOf(problems), ledger: notes.ledger() });

  // 1. The files of the contract, once each.
  const contents = await listFolder(folder, problems);
  if (contents === undefined) return refused();

  // 2. What was planned, which may say how the rest is to be read.
  const folderOpened = openFolder(contents, problems);
  const plan = await readPlanRows(folderOpened, notes, problems);
  const protocolBytes = contents.bytes.get(protocolFile);
  const protocolText = protocolBytes && decodeText(protocolFile, protocolBytes, 'one JSON object, { … }', problems);
  if (plan !== 'none' && contents.names.includes(protocolFile)) problems.push(secondPlan(plan));
  const findings =
    protocolText !== undefined
      ? readProtocol(protocolText, problems)
      : typeof plan === 'string'
        ? noFindings
        : readPlanTable(plan, problems);

  const lockBytes = contents.bytes.get(lockFile);
  const lockText = lockBytes && decodeText(lockFile, lockBytes, 'one JSON object, { … }', problems);
  const lock = lockText === undefined ? undefined : readLock(lockText, problems);
  problems.push(...otherLocks(contents.names));

  // 3. What was recorded: tables first, then their rows held against the plan and each other.
  const folderTables = await readTables(folderOpened, findings.naming, notes, problems);
  checkPresence(contents, folderTables, { hasPlanTable: plan !== 'none', needsReadings }, problems);
  const records = readRecords(folderTables, findings, notes, problems);
  const logged = await logOfTrial(folder, contents.names, records.stations, findings, problems, options);

  checkReadings(logged?.readings ?? [], findings.instruments, problems);

  // Who wrote the opinion, for whom and on what: beside the trial, and no part of it.
  const commissioned = await readCommission(folder, contents.names, problems);

  // 4. The trial, unless anything was wrong.
  const { protocol } = findings;
  if (protocol === undefined || problems.length > 0) return refused();
  const tables = [...(typeof plan === 'string' ? [] : [plan]), ...folderTables.tables.values()];
  const readings = [...records.readings, ...(logged?.readings ?? [])];
  notes.notUsed.push(...idleInstruments(protocol, readings, records.cores));
  const ledger = notes.ledger();
  const cores = folderTables.tables.get('cores');
  const massStep = cores && massStep_g(cores);
  const files = new Map<string, Uint8Array | string>(contents.bytes);
  if (logged !== undefined) files.set(logged.log.file, logged.digest);
  const own = fingerprint(files);
  if (commissioned !== undefined) {
    checkTrialOf(commissioned, protocol.title, own);
    if (problems.length > 0) return refused();
  }
  const source = {
    fingerprint: own,
    files: [
      ...(protocolText === undefined ? [] : [{ file: protocolFile, rows: protocolText.split('\n').length }]),
      ...(lockText === undefined ? [] : [{ file: lockFile, rows: lockText.split('\n').length }]),
      ...tables.map(sourceOf),
      ...(folderTables.grids === undefined ? [] : [gridsSource(folderTables.grids)]),
      ...(logged === undefined ? [] : [logged.source]),
    ],
    ...present({ massStep_g: massStep }),
    ledger,
  };
  const log = logged === undefined ? {} : { sensorLog: logged.log };
  const commission = commissioned === undefined ? {} : { commission: commissioned.commission };
  const sealed = lock === undefined ? {} : { lock };
  const parts = { ...records, readings, ...log, ...sealed, ...commission };
  return { kind: 'trial', trial: { protocol, ...parts, source }, ledger };
}

function secondPlan(plan: Table | 'unreadable'): Problem {
  const file = typeof plan === 'string' ? planLayout.file : plan.place;
  return { file, found: `a second plan beside ${protocolFile}`, expected: 'one of the two' };
}

/** Instruments that the plan names and that read nothing: the plan, or a table that was not handed in, is not what was meant. */
function idleInstruments(
  { instruments }: Protocol,
  readings: readonly Reading[],
  cores: readonly Core[],
): readonly NotUsed[] {
  const used = new Set(readings.map(({ instrument }) => instrument));
  return instruments.flatMap(({ instrument, kind }): NotUsed[] =>
    used.has(instrument) || (kind === 'gravimetric' && cores.length > 0) ? [] : [{ kind: 'instrument', instrument }],
  );
}

function gridsSource({ place, rows, separator }: Records): SourceFile {
  return { file: place, rows: rows.length, ...present({ separator }) };
}

function sourceOf({ place, rows, separator, decimal }: Table): SourceFile {
  return {
    file: place,
    rows: rows.length,
    ...present({ separator }),
    // The mark of a sheet is an artefact of reading it.
    ...(separator === undefined || decimal === undefined ? {} : { decimal }),
  };
}

function problemsOf(problems: readonly Problem[]): { readonly kind: 'problems'; readonly problems: Problems } {
  const [first, ...others] = problems;
  // Without a protocol there is always a problem that says why.
  if (first === undefined) throw new Error('a trial folder was refused without a reason');
  return { kind: 'problems', problems: [first, ...others] };
}
