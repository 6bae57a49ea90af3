import { parseArgs } from 'node:util';

// Everything else is loaded where it is needed: whoever asks for help does not wait for a database or for charts.

/** The flags of each verb; `help` and `version` stand by themselves. */
const flagsOf = {
  new: ['title', 'cores', 'meter', 'walls', 'heights'],
  lock: [],
  check: ['out', 'all'],
  opinion: ['out', 'all', 'pdf', 'word', 'figures', 'tables'],
  verify: [],
  plan: ['out', 'seed', 'pdf'],
  help: [],
} as const;

/** Does what the words of a command line ask for, and answers with the status to end with. */
export async function runCommand(words: readonly string[]): Promise<number> {
  const { helpOf, introduction, isVerb, unknownCommand, usage } = await import('./help.js');
  const refused = (reason: string) => {
    process.stderr.write(`fairwall: ${reason}\n\n${usage}`);
    return 2;
  };
  const options = parsed(words);
  if (typeof options === 'string') return refused(options);
  const { values, positionals } = options;
  const [verb, folder, ...rest] = positionals;
  if (values.help === true || verb === 'help') {
    // `fairwall help check` and `fairwall check --help` ask the same.
    const asked = verb === 'help' && values.help !== true ? folder : verb;
    const help = asked === undefined ? introduction : helpOf(asked);
    if (help === undefined) return refused(unknownCommand(asked ?? ''));
    process.stdout.write(help);
    return 0;
  }
  if (values.version === true) {
    const { packageVersion } = await import('../opinion/version.js');
    process.stdout.write(`${packageVersion()}\n`);
    return 0;
  }
  if (words.length === 0) {
    process.stderr.write(introduction);
    return 2;
  }
  if (verb === undefined) return refused('expected a command');
  if (!isVerb(verb)) return refused(unknownCommand(verb));
  const known: readonly string[] = flagsOf[verb];
  const strange = Object.keys(values).find((flag) => !known.includes(flag));
  if (strange !== undefined) return refused(`${verb} has no --${strange}; “fairwall help ${verb}” names its flags`);
  // A variable that is not set must not spread files over the folder where somebody happens to be.
  if (values.out === '') return refused('--out names no folder');
  const needsFolder = folder === undefined || folder === '' || rest.length > 0;
  const all = values.all === true;
  switch (verb) {
    case 'new': {
      if (needsFolder) return refused('expected: new FOLDER');
      const { makeForms } = await import('./new.js');
      return makeForms(folder, values);
    }
    case 'lock': {
      if (needsFolder) return refused('expected: lock TRIAL-FOLDER');
      const { lockPlan } = await import('./lock.js');
      return lockPlan(folder);
    }
    case 'check': {
      if (needsFolder) return refused('expected: check TRIAL-FOLDER');
      const { checkFolder } = await import('./check.js');
      return checkFolder(folder, values.out, all);
    }
    case 'opinion': {
      if (needsFolder || values.out === undefined) return refused('expected: opinion TRIAL-FOLDER --out FOLDER');
      const { giveOpinion } = await import('./opinion.js');
      const { pdf = false, word = false, figures = false, tables = false } = values;
      return giveOpinion(folder, values.out, all, { pdf, word, figures, tables });
    }
    case 'verify': {
      const [trial, ...tooMany] = rest;
      if (folder === undefined || folder === '' || trial === undefined || trial === '' || tooMany.length > 0)
        return refused('expected: verify OPINION-FOLDER TRIAL-FOLDER');
      const { verifyOpinion } = await import('./verify.js');
      return verifyOpinion(folder, trial);
    }
    case 'plan': {
      if (needsFolder || values.out === undefined) return refused('expected: plan PLAN --out FOLDER');
      const { planTrial } = await import('./plan.js');
      const { seed, pdf = false } = values;
      return planTrial(folder, values.out, { pdf, ...(seed === undefined ? {} : { seed }) });
    }
    case 'help':
      return 0;
  }
}

function parsed(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      allowPositionals: true,
      options: {
        out: { type: 'string' },
        all: { type: 'boolean' },
        tables: { type: 'boolean' },
        pdf: { type: 'boolean' },
        word: { type: 'boolean' },
        figures: { type: 'boolean' },
        title: { type: 'string' },
        cores: { type: 'boolean' },
        meter: { type: 'string' },
        walls: { type: 'string' },
        heights: { type: 'string' },
        seed: { type: 'string' },
        help: { type: 'boolean', short: 'h' },
        version: { type: 'boolean', short: 'v' },
      },
    });
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
