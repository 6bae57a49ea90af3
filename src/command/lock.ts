import { packageVersion } from '../opinion/version.js';
import { isoDay } from '../plain/days.js';
import { lockFolder } from '../records/index.js';
import { problemText } from './problem-text.js';
import { terminalText } from './terminal-text.js';

/** Seals the plan of a folder, and prints the line that makes the seal worth something. */
export async function lockPlan(folder: string): Promise<number> {
  const say = (text: string) => process.stderr.write(`${terminalText(text)}\n`);
  // The one place where a clock is looked at: the day belongs to the seal.
  const lockedOn = isoDay(new Date().toISOString());
  const locked = await lockFolder(folder, { lockedOn, version: packageVersion() });
  if (locked.kind === 'problems') {
    say(problemText(locked.problems, false));
    return 2;
  }
  const { sha256, title, walls, firstReadOn } = locked;
  if (firstReadOn !== undefined)
    say(`The folder holds readings from ${firstReadOn} on. An opinion will say that the plan was sealed after them.`);
  const lines = [
    `Sealed: the plan with ${walls === 1 ? '1 wall' : `${walls} walls`}, in lock.json. It is never overwritten.`,
    '',
    'Publish this line, or post it to somebody outside the trial, today:',
    '',
    `  ${lockedOn}  SHA-256 ${sha256}  ${title}`,
    '',
    'Keep lock.json from whoever reads the walls while the trial runs: it holds their arms.',
    'The digits prove nothing by themselves. They prove the day only where somebody else has held them since.',
  ];
  process.stdout.write(`${terminalText(lines.join('\n'))}\n`);
  return 0;
}
