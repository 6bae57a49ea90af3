import { type Problem, type Problems, type SourceFile, type Trial, TrialFolderError } from '../trial/index.js';
import { fingerprint } from './fingerprint.js';
import { checkPresence } from './folder/check-presence.js';
import { decodeText } from './folder/decode-text.js';
import { listFolder } from './folder/list-folder.js';
import { readTables } from './folder/read-tables.js';
import type { Table } from './folder/table.js';
import { protocolFile } from './folder/table-layouts.js';
import { noFindings } from './protocol/findings.js';
import { readProtocol } from './protocol/read-protocol.js';
import { readRecords } from './read-records.js';
import { logOfTrial } from './sensor-log/log-of-trial.js';
import type { SensorLogOptions } from './sensor-log/read-sensor-log.js';
import { checkReadings } from './tables/check-readings.js';
import { massStep_g } from './tables/mass-step.js';

/** A trial, or everything that keeps its folder from being one. */
export type TrialCheck =
  | { readonly kind: 'trial'; readonly trial: Trial }
  | { readonly kind: 'problems'; readonly problems: Problems };

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
  const problems: Problem[] = [];

  // 1. The files of the contract, once each.
  const contents = await listFolder(folder, problems);
  if (contents === undefined) return problemsOf(problems);

  // 2. What was planned.
  const protocolBytes = contents.bytes.get(protocolFile);
  const protocolText = protocolBytes && decodeText(protocolFile, protocolBytes, 'one JSON object, { … }', problems);
  const findings = protocolText === undefined ? noFindings : readProtocol(protocolText, problems);

  // 3. What was recorded: tables first, then their rows held against the plan and each other.
  const folderTables = await readTables(contents, problems);
  checkPresence(contents, folderTables, problems);
  const records = readRecords(folderTables, findings, problems);
  const logged = await logOfTrial(folder, contents.names, records.stations, findings, problems, options);

  checkReadings(logged?.readings ?? [], findings.instruments, problems);

  // 4. The trial, unless anything was wrong.
  const { protocol } = findings;
  if (protocol === undefined || problems.length > 0) return problemsOf(problems);
  const tables = [...folderTables.tables.values()];
  const cores = folderTables.tables.get('cores');
  const massStep = cores && massStep_g(cores);
  const files = new Map<string, Uint8Array | string>(contents.bytes);
  if (logged !== undefined) files.set(logged.log.file, logged.digest);
  const source = {
    fingerprint: fingerprint(files),
    files: [
      { file: protocolFile, rows: (protocolText ?? '').split('\n').length },
      ...tables.map(sourceOf),
      ...(logged === undefined ? [] : [logged.source]),
    ],
    ...(massStep === undefined ? {} : { massStep_g: massStep }),
  };
  if (logged === undefined) return { kind: 'trial', trial: { protocol, ...records, source } };
  const readings = [...records.readings, ...logged.readings];
  return { kind: 'trial', trial: { protocol, ...records, readings, sensorLog: logged.log, source } };
}

function sourceOf({ place, rows, separator, decimal }: Table): SourceFile {
  return {
    file: place,
    rows: rows.length,
    ...(separator === undefined ? {} : { separator }),
    // The mark of a sheet is an artefact of reading it.
    ...(separator === undefined || decimal === undefined ? {} : { decimal }),
  };
}

function problemsOf(problems: readonly Problem[]): TrialCheck {
  const [first, ...others] = problems;
  // Without a protocol there is always a problem that says why.
  if (first === undefined) throw new Error('a trial folder was refused without a reason');
  return { kind: 'problems', problems: [first, ...others] };
}
