import { fork } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { kernelCommand } from '../../notebooks/kernel-command.mjs';
import { patientEngine } from '../helpers/patient-engine.js';
import type { CellRun } from './tslab-kernel.js';

export interface NotebookRunner {
  /** Runs a cell; the first of a notebook finds no variables of the one before. */
  execute(code: string, isFirst: boolean): Promise<CellRun>;
  stop(): Promise<void>;
}

/** Starts the process that runs notebooks one after another, in their folder, under the kernel's own flags and those of a patient engine. */
export async function startWithoutSockets(folder: string): Promise<NotebookRunner> {
  const flags = kernelCommand().filter((word) => word.startsWith('--disable-warning='));
  const child = fork(join(import.meta.dirname, 'cells-of-one-process.cjs'), {
    cwd: folder,
    execArgv: [...flags, ...patientEngine],
  });
  const ended = once(child, 'exit');
  const answer = async () => {
    const [first] = await Promise.race([
      once(child, 'message'),
      ended.then(([code]): never => {
        throw new Error(`the process of the notebooks ended with ${code}`);
      }),
    ]);
    return first;
  };
  await answer();
  return {
    execute: async (code, isFirst) => {
      const answered = answer();
      child.send({ code, isFirst });
      return (await answered) as CellRun;
    },
    stop: async () => {
      child.kill();
      await ended;
    },
  };
}
