import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { compareOpinions, type Deviation, digitsInCommon, type Json } from '../checking/compare-opinions.js';
import { formOpinion } from '../opinion/index.js';
import { seedOfRecords } from '../opinion/seed-of-records.js';
import { packageVersion } from '../opinion/version.js';
import { readTrial, SensorLogEngineError } from '../records/index.js';
import { PaperError, renderOpinion } from '../report/index.js';
import { isTrialFolderError, type Trial } from '../trial/index.js';
import { besideOf } from './beside-of.js';
import { problemText } from './problem-text.js';
import { terminalText } from './terminal-text.js';

/** So many values that do not come out again are named. */
const mostShown = 20;

/** Computes an opinion again and holds it against the one in a folder: 0 where all is as stated, 1 where not, 2 where it cannot be done. */
export async function verifyOpinion(opinionFolder: string, trialFolder: string): Promise<number> {
  const stated = await statedOpinion(opinionFolder);
  if (typeof stated === 'string') {
    process.stderr.write(terminalText(`fairwall: ${stated}\n`));
    return 2;
  }
  try {
    const trial = await readTrial(trialFolder);
    const seed = typeof stated.seed === 'number' && Number.isSafeInteger(stated.seed) ? stated.seed : undefined;
    const opinion = formOpinion(trial, seed === undefined ? {} : { seed });
    const again = await renderOpinion(opinion, besideOf(trial, opinion));
    const comparison = compareOpinions(stated, JSON.parse(again.json) as Json);
    const checks = [
      ...origins(stated, trial),
      ...(await pages(opinionFolder, again)),
      {
        name: 'Numbers',
        isSame: comparison.numbers.again === comparison.numbers.stated,
        says: `${comparison.numbers.again} of ${comparison.numbers.stated} in opinion.json come out again to the last digit`,
      },
      {
        name: 'Texts',
        isSame: comparison.texts.again === comparison.texts.stated,
        says: `${comparison.texts.again} of ${comparison.texts.stated} in opinion.json come out again`,
      },
    ];
    const isSame = checks.every((check) => check.isSame) && comparison.deviations.length === 0;
    const lines = [
      ...checks.map(({ name, isSame, says }) => `${`${name}:`.padEnd(15)}${isSame ? '' : 'NOT AS STATED: '}${says}`),
      ...deviationLines(comparison.deviations),
      '',
      isSame ? 'Verified: this trial gives this opinion.' : 'Not verified.',
      '',
    ];
    process.stdout.write(terminalText(lines.join('\n')));
    return isSame ? 0 : 1;
  } catch (error) {
    if (isTrialFolderError(error)) process.stderr.write(`${terminalText(problemText(error.problems, false))}\n`);
    else if (error instanceof SensorLogEngineError || error instanceof PaperError)
      process.stderr.write(terminalText(`fairwall: ${error.message}\n`));
    else throw error;
    return 2;
  }
}

type Stated = { readonly [key: string]: Json };

interface Check {
  readonly name: string;
  readonly isSame: boolean;
  readonly says: string;
}

async function statedOpinion(folder: string): Promise<Stated | string> {
  const path = join(folder, 'opinion.json');
  try {
    const stated = JSON.parse(await readFile(path, 'utf8')) as Json;
    return isObject(stated) && stated.format === 'fairwall-opinion/1'
      ? stated
      : `${path} is no opinion (fairwall-opinion/1)`;
  } catch (error) {
    return `${path} cannot be read as an opinion: ${error instanceof Error ? error.message : String(error)}`;
  }
}

function isObject(value: Json | undefined): value is Stated {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Folder, version, seed and commission as stated, against those that are here. */
function origins(stated: Stated, trial: Trial): readonly Check[] {
  const of = (name: string, was: Json | undefined, is: string | number | undefined, kind: string): Check => {
    const isSame = (was ?? undefined) === is;
    return {
      name,
      isSame,
      says: isSame ? `${kind} ${is ?? 'none'}` : `${kind} ${shown(was)} stated, ${is ?? 'none'} here`,
    };
  };
  const fingerprintIn = (value: Json | undefined) => (isObject(value) ? value.fingerprint : undefined);
  return [
    of('Trial folder', fingerprintIn(stated.trial), trial.source.fingerprint, 'fingerprint'),
    of('Version', stated.version, packageVersion(), 'fairwall'),
    of('Seed', stated.seed, seedOfRecords(trial), 'that of the records,'),
    of('Commission', fingerprintIn(stated.commission), trial.commission?.fingerprint, 'fingerprint'),
  ];
}

/** The pages hold the same opinion in words: each byte must come out again. */
async function pages(
  folder: string,
  again: { readonly html: string; readonly markdown: string },
): Promise<readonly Check[]> {
  const checks: Check[] = [];
  for (const [name, text] of [
    ['opinion.html', again.html],
    ['opinion.md', again.markdown],
  ] as const) {
    const there = await readFile(join(folder, name), 'utf8').catch(() => undefined);
    if (there === undefined) checks.push({ name, isSame: false, says: 'no such file, or one that cannot be read' });
    else {
      const line = firstDifference(there, text);
      checks.push({
        name,
        isSame: line === undefined,
        says: line === undefined ? 'the same, byte for byte' : `another from line ${line} on`,
      });
    }
  }
  return checks;
}

function firstDifference(one: string, other: string): number | undefined {
  if (one === other) return undefined;
  const [lines, others] = [one.split('\n'), other.split('\n')];
  return lines.findIndex((line, index) => line !== others[index]) + 1 || lines.length + 1;
}

function deviationLines(deviations: readonly Deviation[]): readonly string[] {
  if (deviations.length === 0) return [];
  const rest = deviations.length - mostShown;
  return [
    '',
    'What does not come out again:',
    ...deviations.slice(0, mostShown).map(({ path, stated, again }) => {
      const digits =
        typeof stated === 'number' && typeof again === 'number'
          ? ` (${digitsInCommon(stated, again)} digits in common)`
          : '';
      return `  ${path}: ${shown(stated)} stated, ${shown(again)} comes out${digits}`;
    }),
    ...(rest > 0 ? [`  and ${rest} more`] : []),
  ];
}

function shown(value: Json | undefined): string {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value);
  return text.length > 100 ? `${text.slice(0, 99)}…` : text;
}
