import { nearestName } from '../records/nearest-name.js';

const verbs = {
  new: `fairwall new FOLDER [--title TEXT] [--cores] [--meter KIND] [--walls NUMBER] [--heights LIST]

Writes the forms of a new trial to FOLDER, which must be missing or empty:
  trial.xlsx             a workbook to fill in: the plan as questions, and a sheet for each table
  recording-sheets.html  sheets of paper for the wall side, to print once for each visit
  example/trial.xlsx     a filled workbook, which “fairwall opinion” reads as it is
On a terminal it asks a few questions; in a script it takes the defaults.

  --title TEXT      the name of the trial
  --cores           cores are drilled and weighed; so it is where no meter is named
  --meter KIND      microwave, resistance, capacitance or humidity-probe
  --walls NUMBER    walls in all arms together (20)
  --heights LIST    heights in mm at which each wall is read (200,600,1000)

Exit status 0: the forms were written. 2: they were not, and nothing else was.

Example:
  fairwall new my-trial --cores --meter microwave --walls 16 --heights 150,300,600,900,1200
`,
  lock: `fairwall lock TRIAL-FOLDER

Seals the plan before the readings: writes what was planned and which wall is in which arm to lock.json in TRIAL-FOLDER, with the
day and a SHA-256 of it, and prints a line to publish or to post. The digits prove nothing by themselves; they prove the day
where somebody outside the trial holds them. A later opinion names whatever was done otherwise, beside the verdict as locked.
A seal is never overwritten.

Exit status 0: the plan was sealed. 2: it was not, and the reason is said.

Example:
  fairwall lock my-trial
`,
  check: `fairwall check TRIAL-FOLDER [--out FOLDER] [--all]

Reads the trial and says, without judging and without showing any outcome by arm: what was understood, what was not used, what is
missing and for what, how many readings there are by wall, visit and height, how they scatter over all walls together, and what
the trial can and cannot answer as planned. It may be asked at any time during a trial without undoing its blinding.

  --out FOLDER  writes the same to check.html in FOLDER, with a picture
  --all         a line for every row with a problem, not one for each cause

Exit status 0: the folder can be read, whatever is missing. 2: it cannot, and each problem is named.

Example:
  fairwall check my-trial --out my-check
`,
  opinion: `fairwall opinion TRIAL-FOLDER --out FOLDER [--pdf] [--word] [--figures] [--tables] [--all]

Reads the trial in TRIAL-FOLDER and writes opinion.html, opinion.md and opinion.json to FOLDER: all three or none. A commission.json
in TRIAL-FOLDER says who wrote the opinion, for whom and on what; datasets/README.md has its keys.

  --out FOLDER  where the opinion goes
  --pdf         also opinion.pdf, printed by a headless Chromium, Chrome or Edge (FAIRWALL_BROWSER names another one)
  --word        also opinion.docx, for a word processor
  --figures     also opinion-figures/: each chart as SVG, as PNG and as Vega-Lite specification with its data
  --tables      also tables/: the trial and the opinion as CSV files, safe to open in a spreadsheet
  --all         a line for every row with a problem; without, at most 20 lines, one a cause

Exit status 0: an opinion was written, whatever it says. 2: the input is wrong, and nothing was written.

Examples:
  fairwall opinion my-trial --out my-opinion
  fairwall opinion node_modules/fairwall/datasets/paired-garden-walls --out garden-walls
`,
  plan: `fairwall plan PLAN --out FOLDER [--seed NUMBER] [--pdf]

Plans a trial: how often its verdict would be wrong, how many walls it takes and at what cost, when to read, and which wall is
treated. PLAN is protocol.json, a workbook with a sheet plan, plan.csv, or a folder with one of them, with the key planning in it.

Writes to FOLDER, which must be missing or empty, all of it or nothing:
  plan.html                  the plan to sign: chances, calendar, places, cautions
  chances.csv, designs.csv, calendar.csv
  for-the-person-who-knows/  the arms, the seed, and a sealed page for each wall
  for-the-readers/           codes, labels, recording sheets for each visit, forms for guesses: no arm stands there
  trial/trial.xlsx           the workbook to fill in, with the plan in it

  --out FOLDER   where the plan goes
  --seed NUMBER  draws the arms from this number; else that of the plan, else one drawn afresh
  --pdf          the plan page as plan.pdf too, by a Chromium, Chrome or Edge of this machine

Exit status 0: the plan was written. 2: the plan allows none; what is wrong with it is said, and nothing was written.

Example:
  fairwall plan my-plan.json --out my-next-trial
`,
  verify: `fairwall verify OPINION-FOLDER TRIAL-FOLDER

Computes the opinion in OPINION-FOLDER again from TRIAL-FOLDER and says whether folder, version, seed and commission are those stated,
and which numbers come out again to the last digit.

Exit status 0: all of it comes out again. 1: something does not, and is named. 2: it could not be tried.

Example:
  fairwall verify my-opinion my-trial
`,
  help: `fairwall help [COMMAND]

Says what fairwall is for, or how a command is used.
`,
} as const;

export type Verb = keyof typeof verbs;

const verbNames = Object.keys(verbs) as readonly Verb[];

/** A line for each verb. */
export const usage = `Usage: fairwall plan PLAN --out FOLDER               how many walls, when, and which are treated
       fairwall new FOLDER                           forms to fill in and to print
       fairwall lock TRIAL-FOLDER                    the plan, sealed before the readings
       fairwall check TRIAL-FOLDER                   what was understood, and what is missing
       fairwall opinion TRIAL-FOLDER --out FOLDER    the opinion
       fairwall verify OPINION-FOLDER TRIAL-FOLDER   whether an opinion comes out again
       fairwall help [COMMAND], fairwall --version
`;

/** What the command is for, for somebody who has typed nothing else. */
export const introduction = `fairwall judges a trial of treatments against rising damp: it reads a folder with the plan and the readings, compares
treated with untreated walls, weighs every weakness it can find, and writes an opinion.

${usage}
Exit status 0: it was done. 1: an opinion does not come out again. 2: the input is wrong; what is wrong with it is said.

Begin with “fairwall new my-trial”: it writes a workbook to fill in, sheets to print for the wall side, and a filled example. A trial
folder may also hold CSV files in place of a workbook; datasets/README.md explains every file and column.
`;

/** How a verb is used, or nothing where there is no such verb. */
export function helpOf(word: string): string | undefined {
  return isVerb(word) ? verbs[word] : undefined;
}

export function isVerb(word: string): word is Verb {
  return Object.hasOwn(verbs, word);
}

/** What to say of a command that there is not. */
export function unknownCommand(word: string): string {
  const suggestion = nearestName(word, verbNames);
  const advice = suggestion === undefined ? '' : `; did you mean “${suggestion}”?`;
  return `there is no command “${word}”${advice}`;
}
