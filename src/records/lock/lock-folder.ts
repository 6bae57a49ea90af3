import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import type { Problem, Problems, Trial } from '../../trial/index.js';
import { lockFile } from '../folder/table-layouts.js';
import { whyUnreadable } from '../folder/why-unreadable.js';
import { checkFolder } from '../read-trial.js';
import { type SealedPlan, type Sealing, sealedPlan } from './lock-text.js';

/** The seal that was set, or everything that keeps the plan from being sealed. */
export type LockedFolder =
  | (SealedPlan & {
      readonly kind: 'locked';
      readonly title: string;
      readonly walls: number;
      /** The first day with a reading or a core in the folder; absent where nothing was read yet. */
      readonly firstReadOn?: string;
    })
  | { readonly kind: 'problems'; readonly problems: Problems };

/**
 * Seals the plan of a folder: reads it with its walls, and writes `lock.json` beside it. A seal that is there is never overwritten.
 *
 * @param sealing the day and the version of the program, which stand in the seal
 * @example (await lockFolder('datasets', { lockedOn: '2024-02-01', version: '1.0.0' })).kind // 'problems'
 */
export async function lockFolder(folder: string, sealing: Sealing): Promise<LockedFolder> {
  const check = await checkFolder(folder, { needsReadings: false });
  if (check.kind === 'problems') return { kind: 'problems', problems: check.problems };
  const { trial } = check;
  if (trial.lock !== undefined) return refused(alreadyLocked(trial.lock.lockedOn));
  const sealed = sealedPlan(trial, sealing);
  try {
    await writeFile(join(folder, lockFile), sealed.text, { flag: 'wx' });
  } catch (error) {
    return refused({ file: lockFile, found: whyUnreadable(error), expected: 'a folder that can be written to' });
  }
  const firstReadOn = firstReading(trial);
  const { title } = trial.protocol;
  return {
    kind: 'locked',
    ...sealed,
    title,
    walls: trial.walls.length,
    ...present({ firstReadOn }),
  };
}

function refused(problem: Problem): LockedFolder {
  return { kind: 'problems', problems: [problem] };
}

function alreadyLocked(lockedOn: string): Problem {
  const expected =
    'a plan that was not sealed yet; a seal is never overwritten, and a change of the plan is named beside it';
  return { file: lockFile, found: `the seal of ${lockedOn}`, expected };
}

/** The first day with a reading or a core. */
function firstReading({ readings, cores }: Trial): string | undefined {
  return [...readings, ...cores].reduce<string | undefined>((first, { date }) => {
    const day = isoDay(date);
    return first === undefined || day < first ? day : first;
  }, undefined);
}
