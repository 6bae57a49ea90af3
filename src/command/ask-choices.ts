import { createInterface } from 'node:readline/promises';
import { type FormChoices, heightsIn, meterKinds, type Understood, wallsIn, wordIn } from '../forms/form-choices.js';
import { present } from '../plain/present.js';
import type { NewFlags } from './new-flags.js';

type Ask = <Value>(question: string, standard: string, read: (text: string) => Understood<Value>) => Promise<Value>;

/**
 * Asks on a terminal for what no flag says, each question again until its answer can be used; an empty answer takes the default.
 *
 * @returns nothing when the terminal was closed before the last answer
 */
export async function askChoices(stated: FormChoices, flags: NewFlags): Promise<FormChoices | undefined> {
  const terminal = createInterface({ input: process.stdin, output: process.stdout });
  const closed = new AbortController();
  terminal.once('close', () => closed.abort());
  const said = async (question: string) => (await terminal.question(question, { signal: closed.signal })).trim();
  const ask: Ask = async (question, standard, read) => {
    for (;;) {
      const answer = read((await said(`${question} [${standard}] `)) || standard);
      if (answer.kind === 'understood') return answer.value;
      process.stdout.write(`Please give ${answer.expected}.\n`);
    }
  };
  try {
    const title = flags.title ?? (await said('What is the trial called? '));
    const instruments = flags.cores === true || flags.meter !== undefined ? stated : await askInstruments(ask);
    const { cores, meter } = instruments;
    const walls =
      flags.walls === undefined
        ? await ask('How many walls, in all arms together?', `${stated.walls}`, wallsIn)
        : stated.walls;
    const question = 'At which heights is each wall read, in mm? A damp front needs five or more.';
    const heights_mm =
      flags.heights === undefined ? await ask(question, stated.heights_mm.join(', '), heightsIn) : stated.heights_mm;
    return { title, cores, walls, heights_mm, ...present({ meter }) };
  } catch (error) {
    if (closed.signal.aborted) return undefined;
    throw error;
  } finally {
    terminal.close();
  }
}

async function askInstruments(ask: Ask): Promise<Pick<FormChoices, 'cores' | 'meter'>> {
  const first = ['cores', ...meterKinds] as const;
  const decides = await ask(`What decides: ${first.join(', ')}?`, 'cores', (text) => wordIn(text, first));
  if (decides !== 'cores') return { cores: false, meter: decides };
  const second = ['none', ...meterKinds] as const;
  const beside = await ask(`And a meter beside it: ${second.join(', ')}?`, 'none', (text) => wordIn(text, second));
  return { cores: true, ...(beside === 'none' ? {} : { meter: beside }) };
}
