import { nearestName } from '../records/nearest-name.js';

export const usage = `Usage: fairwall opinion TRIAL-FOLDER --out FOLDER [--all]
       fairwall help, fairwall --version

Reads the trial in TRIAL-FOLDER and writes opinion.html, opinion.md and opinion.json to FOLDER: all three or none.
With --all every row with a problem has a line of its own; without, at most 20 lines are printed, one a cause.
Exit status 0: an opinion was written, whatever it says. 2: the input is wrong, and nothing was written.
`;

/** What the command is for, for somebody who has typed nothing else. */
export const introduction = `fairwall judges a trial of treatments against rising damp: it reads a folder with the plan and the readings, compares
treated with untreated walls, weighs every weakness it can find, and writes an opinion.

${usage}
Examples:
  fairwall opinion my-trial --out my-opinion
  fairwall opinion node_modules/fairwall/datasets/paired-garden-walls --out garden-walls
  fairwall opinion my-trial --out my-opinion --all

A trial folder holds protocol.json, walls.csv, and cores.csv or readings.csv. The easiest start is to copy a folder of datasets/ and
change it; datasets/README.md explains every file and column.
`;

const commands = ['opinion', 'help'] as const;

/** What to say of a command that there is not. */
export function unknownCommand(word: string): string {
  const suggestion = nearestName(word, commands);
  const advice = suggestion === undefined ? '' : `; did you mean “${suggestion}”?`;
  return `there is no command “${word}”${advice}`;
}
