import { randomInt } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundledTrial } from '../forms/bundled-trial.js';
import { checkFormsFolder, FormsFolderError, writeFolder } from '../forms/write-forms.js';
import { planFiles, planFolders } from '../papers/files/plan-files.js';
import { inThousand } from '../papers/page/plan-words.js';
import { makePlan, type Pilot, type TrialPlan } from '../planning/make-plan.js';
import { isPlanningError } from '../planning/planning-error.js';
import { checkPlan, checkTrial } from '../records/index.js';
import { PaperError } from '../report/index.js';
import type { Problems } from '../trial/index.js';
import { problemText } from './problem-text.js';
import { terminalText } from './terminal-text.js';

/** Whole numbers that every reader of JSON keeps. */
const mostSeed = 2 ** 47;

/** Plans a trial from its plan and writes what it takes to begin it; what is wrong with the plan is said on standard error. */
export async function planTrial(
  path: string,
  out: string,
  { seed: seedText, pdf = false }: { readonly seed?: string; readonly pdf?: boolean } = {},
): Promise<number> {
  const say = (text: string) => process.stderr.write(`${terminalText(text)}\n`);
  const refused = (reason: string) => {
    say(`fairwall: ${reason}`);
    return 2;
  };
  if (seedText !== undefined && !/^\d{1,15}$/.test(seedText))
    return refused('--seed needs a whole number of at most 15 figures');
  try {
    await checkFormsFolder(out);
    const check = await checkPlan(path);
    if (check.kind === 'problems') {
      say(problemText(check.problems, false));
      return 2;
    }
    const { plan } = check;
    const pilot = await pilotOf(plan.planning.pilot, path);
    if (pilot.kind === 'problems') {
      say(`The pilot cannot be read:\n${problemText(pilot.problems, false)}`);
      return 2;
    }
    // The one number that nothing fixes: it is drawn once, and kept with the person who knows.
    const seed = seedText === undefined ? (plan.allocation.seed ?? randomInt(mostSeed)) : Number(seedText);
    const planned = await makePlan(plan, seed, pilot.kind === 'pilot' ? pilot.pilot : undefined);
    const files = await planFiles(planned);
    await writeFolder(pdf ? await withPdf(files) : files, out);
    process.stdout.write(terminalText(summary(planned, out)));
    if (plan.allocation.seed !== undefined && seedText === undefined)
      say(
        'Note: the seed stands in the plan. Whoever reads the plan can draw the arms again; keep it from those who read walls.',
      );
    return 0;
  } catch (error) {
    if (error instanceof FormsFolderError || error instanceof PaperError || isPlanningError(error))
      return refused(error.message);
    throw error;
  }
}

/** The plan page on paper too, to be signed. */
async function withPdf(
  files: ReadonlyMap<string, string | Uint8Array>,
): Promise<ReadonlyMap<string, string | Uint8Array>> {
  const page = files.get('plan.html');
  if (typeof page !== 'string') throw new Error('a plan has a page');
  const { toPdf } = await import('../report/paper/to-pdf.js');
  return new Map([...files, ['plan.pdf', await toPdf(page)] as const]);
}

type PilotRead =
  | { readonly kind: 'none' }
  | { readonly kind: 'pilot'; readonly pilot: Pilot }
  | { readonly kind: 'problems'; readonly problems: Problems };

const bundled = 'bundled:';

/** A path in a plan is meant from where the plan lies. */
async function pilotOf(stated: string | undefined, plan: string): Promise<PilotRead> {
  if (stated === undefined) return { kind: 'none' };
  const isBundled = stated.startsWith(bundled);
  const name = isBundled ? stated.slice(bundled.length) : stated;
  const folder = isBundled
    ? fileURLToPath(bundledTrial(name))
    : resolve((await isFolder(plan)) ? plan : dirname(plan), name);
  const check = await checkTrial(folder);
  if (check.kind === 'problems') return { kind: 'problems', problems: check.problems };
  return {
    kind: 'pilot',
    pilot: { trial: check.trial, name: isBundled ? name : basename(folder), isInvented: isBundled },
  };
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path)).isDirectory();
}

function summary(planned: TrialPlan, out: string): string {
  const { truths, wanted, calendar, size, simulated } = planned;
  const nothing = truths.find(({ effect }) => effect === 0)?.chances.worthwhile ?? 0;
  const found = truths.find(({ effect }) => effect === wanted.effect)?.chances.worthwhile ?? 0;
  const needed = size?.needed;
  const lines = [
    `A useless treatment would be called worthwhile in ${inThousand(nothing, simulated?.trials)} of 1000 such trials,`,
    `one with a true effect of ${wanted.effect} ${planned.plan.outcome.unit} in ${Math.round(100 * found)} of 100.`,
    ...(simulated === undefined ? [] : [`Counted in ${simulated.trials} simulated trials, for visits are missed.`]),
    ...(needed === undefined
      ? ['Two walls speak of themselves alone, whatever comes out.']
      : [
          needed.kind === 'found'
            ? `Walls needed for ${Math.round(100 * wanted.chance)} of 100: ${needed.walls}.`
            : `Not even ${needed.most} walls reach ${Math.round(100 * wanted.chance)} of 100.`,
        ]),
    '',
    `Before:    ${calendar.before.from} to ${calendar.before.to}`,
    `Treatment: ${calendar.treatment}`,
    `After:     ${calendar.after.from} to ${calendar.after.to}`,
    '',
    `To sign:                    ${join(out, 'plan.html')}`,
    `For the person who knows:   ${join(out, planFolders.knows)}`,
    `For those who read:         ${join(out, planFolders.readers)}`,
    `The folder to fill in:      ${join(out, planFolders.trial)}`,
    '',
    'Hand the two folders to two people, and keep no copy of the first where readers can see it.',
  ];
  return `${lines.join('\n')}\n`;
}
