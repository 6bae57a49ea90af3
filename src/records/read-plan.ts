import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import type { Problem, Problems, Protocol } from '../trial/index.js';
import type { PlanningKeys } from '../trial/planning.js';
import { decodeText } from './folder/decode-text.js';
import { type FolderContents, listFolder } from './folder/list-folder.js';
import { openFolder, readPlanRows } from './folder/read-tables.js';
import { readingNotes } from './folder/reading-notes.js';
import { planLayout, protocolFile } from './folder/table-layouts.js';
import { whyUnreadable } from './folder/why-unreadable.js';
import { noFindings, type ProtocolFindings } from './protocol/findings.js';
import { readPlanTable, readProtocol } from './protocol/read-protocol.js';

/** A plan that a trial can be planned from: with a margin and the size of the trial. */
export interface SizedPlan extends Protocol {
  readonly margin: number;
  readonly planning: PlanningKeys;
}

/** A plan, or everything that keeps it from being one. */
export type PlanCheck =
  | { readonly kind: 'plan'; readonly plan: SizedPlan; readonly file: string }
  | { readonly kind: 'problems'; readonly problems: Problems };

/**
 * Reads a plan by itself, before there is a trial: `protocol.json` under any name, a workbook with a sheet `plan`, a `plan.csv`, or a
 * folder that holds one of them. It needs a margin and the key `planning`.
 *
 * @example (await checkPlan('datasets/two-walls')).problems.map(({ expected }) => expected)[0] // 'the size of the trial: design, walls, stations, visitsBefore, visitsAfter, and spreads or a pilot'
 */
export async function checkPlan(path: string): Promise<PlanCheck> {
  const problems: Problem[] = [];
  const findings = await findingsAt(path, problems);
  const { protocol, file } = findings;
  if (protocol !== undefined) {
    if (protocol.planning === undefined)
      findings.refuseKey(
        'planning',
        'no key planning',
        'the size of the trial: design, walls, stations, visitsBefore, visitsAfter, and spreads or a pilot',
      );
    if (protocol.margin === undefined)
      findings.refuseKey(
        'margin',
        'no key margin',
        'the smallest difference worth paying for, in the unit of the outcome',
      );
  }
  const [first, ...others] = problems;
  if (first !== undefined) return { kind: 'problems', problems: [first, ...others] };
  if (protocol?.planning === undefined || protocol.margin === undefined)
    return { kind: 'problems', problems: [{ file: path, found: 'no plan', expected: 'a plan' }] };
  return { kind: 'plan', plan: { ...protocol, margin: protocol.margin, planning: protocol.planning }, file };
}

async function findingsAt(path: string, problems: Problem[]): Promise<ProtocolFindings> {
  const contents = await contentsAt(path, problems);
  if (contents === undefined) return noFindings;
  const json = contents.names.find((name) => name.toLowerCase().endsWith('.json') && contents.bytes.has(name));
  const bytes = json === undefined ? undefined : contents.bytes.get(json);
  if (json !== undefined && bytes !== undefined) {
    const text = decodeText(json, bytes, 'one JSON object, { … }', problems);
    return text === undefined ? noFindings : readProtocol(text, problems, json);
  }
  const plan = await readPlanRows(openFolder(contents, problems), readingNotes(), problems);
  if (plan === 'none')
    problems.push({
      file: basename(path),
      found: 'no plan',
      expected: `${protocolFile}, ${planLayout.file} or a sheet plan`,
    });
  return typeof plan === 'string' ? noFindings : readPlanTable(plan, problems);
}

/** A file by itself is a folder that holds nothing else. */
async function contentsAt(path: string, problems: Problem[]): Promise<FolderContents | undefined> {
  const name = basename(path);
  try {
    if ((await stat(path)).isDirectory()) return await listFolder(path, problems);
    const bytes = await readFile(path);
    const kind = name.toLowerCase().split('.').at(-1);
    if (kind === 'xlsx') return { names: [name], bytes: new Map([[name, bytes]]), workbook: name };
    if (kind === 'csv') return { names: [planLayout.file], bytes: new Map([[planLayout.file, bytes]]) };
    if (kind === 'json') return { names: [name], bytes: new Map([[name, bytes]]) };
    problems.push({
      file: name,
      found: 'a file of another kind',
      expected: 'a plan in a file .json, .xlsx or .csv, or a folder',
    });
  } catch (error) {
    problems.push({ file: path, found: whyUnreadable(error), expected: 'a plan that can be read' });
  }
  return undefined;
}
