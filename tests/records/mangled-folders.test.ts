import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import writeWorkbook from 'write-excel-file/node';
import { checkTrial, readTrial, type TrialCheck } from '../../src/records/index.js';
import { describeProblem, isTrialFolderError } from '../../src/trial/index.js';
import { mangledFolder } from '../helpers/mangle-folder.js';
import { cellsOf, sheetsOf } from '../helpers/spellings.js';
import { ofSweep } from '../helpers/sweep.js';
import { type FolderFiles, inFolder, validFolder } from '../helpers/valid-folder.js';

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

/** Whatever came in: a trial of finite numbers, or problems that each say where, what and what instead, on one line. */
function expectAnswer(check: TrialCheck): void {
  if (check.kind === 'trial') {
    expect(numbersIn(check.trial).filter((number) => !Number.isFinite(number))).toEqual([]);
    return;
  }
  expect(check.problems.length).toBeGreaterThan(0);
  for (const problem of check.problems) {
    expect(problem.file).not.toBe('');
    expect(problem.found).not.toBe('');
    expect(problem.expected).not.toBe('');
    const line = describeProblem(problem);
    expect(line).not.toMatch(/[\p{Cc}\p{Zl}\p{Zp}]/u);
    // What stands in quotes is the folder's own.
    expect(line.replace(/"(?:\\.|[^"\\])*"/g, '')).not.toMatch(/undefined|NaN|\[object|function/);
  }
}

describe('checkTrial(folder) of a mangled folder', () => {
  const runs = ofSweep(200, 50);
  it('answers with a trial of finite numbers or with problems, and never throws', async () => {
    const seen = { trial: 0, problems: 0 };
    await fc.assert(
      fc.asyncProperty(mangledFolder(validFolder()), async (files) => {
        const check = await inFolder(files, checkTrial);
        seen[check.kind]++;
        expectAnswer(check);
      }),
      { numRuns: runs },
    );
    // Accidents that leave a trial behind are as telling as those that do not.
    expect(seen.trial).toBeGreaterThan(0);
    expect(seen.problems).toBeGreaterThan(0.3 * runs);
  });

  it('does so for a mangled workbook', async () => {
    const { 'protocol.json': protocol = '', ...others } = validFolder();
    const tables = Object.entries(others).filter(([name]) => name.endsWith('.csv'));
    const workbook = await writeWorkbook(sheetsOf(tables.map(([name, text]) => [name, cellsOf(text)]))).toBuffer();
    const files: FolderFiles = { 'protocol.json': protocol, 'trial.xlsx': Uint8Array.from(workbook) };
    await fc.assert(
      fc.asyncProperty(mangledFolder(files), async (mangled) => expectAnswer(await inFolder(mangled, checkTrial))),
      { numRuns: 40 },
    );
  });

  it('readTrial(folder) throws a TrialFolderError with the same problems', async () => {
    await fc.assert(
      fc.asyncProperty(mangledFolder(validFolder()), async (files) => {
        const [check, thrown] = await inFolder(
          files,
          async (folder) =>
            [
              await checkTrial(folder),
              await readTrial(folder).then(
                () => undefined,
                (error: unknown) => error,
              ),
            ] as const,
        );
        if (check.kind === 'trial') expect(thrown).toBeUndefined();
        else expect(isTrialFolderError(thrown) && thrown.problems).toEqual(check.problems);
      }),
      { numRuns: 20 },
    );
  });
});
