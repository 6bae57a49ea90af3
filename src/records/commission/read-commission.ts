import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { present } from '../../plain/present.js';
import type { Commission, Photograph, Problem } from '../../trial/index.js';
import { fingerprint } from '../fingerprint.js';
import { decodeText } from '../folder/decode-text.js';
import { whyUnreadable } from '../folder/why-unreadable.js';
import { nearestName } from '../nearest-name.js';
import { jsonDocument } from '../protocol/json-document.js';
import {
  choiceOf,
  dayOf,
  fieldsOf,
  type JsonFields,
  type JsonPlace,
  listOf,
  refuse,
  textOf,
} from '../protocol/json-fields.js';
import { quoted } from '../quoted.js';

const commissionFile = 'commission.json';

/** Larger ones are no photographs for a report: our convention. */
const largestPhotograph_MB = 20;
const largestText_kB = 256;

const texts = [
  'author',
  'qualification',
  'client',
  'instruction',
  'inspectedBy',
  'site',
  'walls',
  'materials',
  'interests',
  'declaration',
] as const;
const days = ['instructedOn', 'opinionOn', 'inspectedOn'] as const;
const lists = ['questions', 'documents', 'references'] as const;
const keys = ['format', 'trial', ...texts, ...days, ...lists, 'photographs'];

/** The commission, and how it names the trial that it is about. */
export interface CommissionRead {
  readonly commission: Commission;
  readonly trial?: JsonPlace;
}

/**
 * Reads `commission.json` of a trial folder, with the photographs that it names. It is no part of the trial: its fingerprint is its own.
 *
 * @returns nothing where there is none, or where something is wrong with it, which is then among the problems.
 */
export async function readCommission(
  folder: string,
  names: readonly string[],
  problems: Problem[],
): Promise<CommissionRead | undefined> {
  if (!names.includes(commissionFile)) {
    const slip = names.find((name) => name.endsWith('.json') && nearestName(name, [commissionFile]) !== undefined);
    if (slip !== undefined)
      problems.push({
        file: slip,
        found: `a name that is nearly ${quoted(commissionFile)}, which is not there`,
        expected: 'that name exactly, or one less like it',
        suggestion: commissionFile,
      });
    return undefined;
  }
  const before = problems.length;
  const bytes = await bytesOf(folder, commissionFile, largestText_kB / 1024, (problem) =>
    problems.push({ file: commissionFile, ...problem }),
  );
  const text = bytes && decodeText(commissionFile, bytes, 'one JSON object, { … }', problems);
  const document = text === undefined ? undefined : jsonDocument(commissionFile, text, problems);
  const fields = document && fieldsOf({ document, node: document.root, path: '' }, keys);
  if (bytes === undefined || fields === undefined) return undefined;
  choiceOf(fields.need('format', '"fairwall-commission/1"'), ['fairwall-commission/1']);
  const stated = [
    ...texts.map((key) => [key, textOf(fields.get(key), 'a text, or no such key')] as const),
    ...days.map((key) => [key, dayOf(fields.get(key))] as const),
  ].filter(([, value]) => value !== undefined);
  const [questions, documents, references] = lists.map((key) => textsOf(fields, key));
  const photographs = await photographsOf(folder, names, fields);
  const trial = fields.get('trial');
  textOf(trial, 'the title of the trial, or its fingerprint');
  if (problems.length > before) return undefined;
  const files = new Map<string, Uint8Array>([
    [commissionFile, bytes],
    ...photographs.map(({ file, bytes }) => [file, bytes] as const),
  ]);
  return {
    commission: {
      fingerprint: fingerprint(files),
      ...Object.fromEntries(stated),
      ...{ questions: questions ?? [], documents: documents ?? [], references: references ?? [], photographs },
    },
    ...present({ trial }),
  };
}

/** A commission must not be laid beside another trial than the one it was given for. */
export function checkTrialOf({ trial }: CommissionRead, title: string, folderFingerprint: string): void {
  if (trial === undefined) return;
  const named = textOf(trial, 'the title of the trial, or its fingerprint');
  if (named === undefined || named === title || named === folderFingerprint) return;
  refuse(trial, `the trial in this folder: its title, ${quoted(title)}, or its fingerprint, ${folderFingerprint}`, {
    found: `another trial, ${quoted(named)}`,
  });
}

function textsOf(fields: JsonFields, key: string): readonly string[] {
  return (listOf(fields.get(key), 'a list of texts, or no such key') ?? []).flatMap(
    (place) => textOf(place, 'a text') ?? [],
  );
}

async function photographsOf(
  folder: string,
  names: readonly string[],
  fields: JsonFields,
): Promise<readonly Photograph[]> {
  const photographs: Photograph[] = [];
  for (const place of listOf(fields.get('photographs'), 'a list of objects with the keys file and caption') ?? []) {
    const photograph = fieldsOf(place, ['file', 'caption']);
    const at = photograph?.need('file', 'the name of a JPEG or PNG file in this folder');
    const file = textOf(at, 'the name of a file');
    const caption = textOf(photograph?.need('caption', 'what is to be seen'), 'what is to be seen');
    if (at === undefined || file === undefined || caption === undefined) continue;
    if (!names.includes(file)) {
      refuse(at, 'the name of a file in this folder', {
        found: `no file ${quoted(file)}`,
        suggestion: nearestName(file, names),
      });
      continue;
    }
    const bytes = await bytesOf(folder, file, largestPhotograph_MB, (problem) => refuse(at, problem.expected, problem));
    if (bytes === undefined) continue;
    if (isPicture(bytes)) photographs.push({ file, caption, bytes });
    else refuse(at, 'a photograph as JPEG or PNG', { found: `${quoted(file)}, which is neither` });
  }
  return photographs;
}

/** Its size is looked at before it is read. */
async function bytesOf(
  folder: string,
  name: string,
  largest_MB: number,
  say: (problem: Pick<Problem, 'found' | 'expected'>) => void,
): Promise<Uint8Array | undefined> {
  const largest = largest_MB < 1 ? `${largest_MB * 1024} kB` : `${largest_MB} MB`;
  try {
    const path = join(folder, name);
    const facts = await stat(path);
    if (facts.isFile() && facts.size <= largest_MB * 2 ** 20) return await readFile(path);
    const found = facts.isFile()
      ? `${quoted(name)} of ${Math.ceil(facts.size / 2 ** 20)} MB`
      : `${quoted(name)}, which is not a file`;
    say({ found, expected: `a file of at most ${largest}` });
  } catch (error) {
    say({ found: whyUnreadable(error), expected: 'a file that can be read' });
  }
  return undefined;
}

const beginnings = [
  [0xff, 0xd8, 0xff],
  [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
];

function isPicture(bytes: Uint8Array): boolean {
  return beginnings.some((beginning) => beginning.every((byte, index) => bytes[index] === byte));
}
