import { vi } from 'vitest';
import { runCommand } from '../../src/command/run-command.js';

export interface Answer {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** What the command answers, but for its process and its threads, which are asked of the packed one. */
export async function fairwall(...words: readonly string[]): Promise<Answer> {
  const said = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((stream) =>
    vi.spyOn(process[stream], 'write').mockImplementation((text) => {
      said[stream] += String(text);
      return true;
    }),
  );
  try {
    return { status: await runCommand(words), ...said };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}
