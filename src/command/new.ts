import { join } from 'node:path';
import { checkFormsFolder, FormsFolderError, formFiles, writeForms } from '../forms/write-forms.js';
import { askChoices } from './ask-choices.js';
import { choicesOfFlags, type NewFlags } from './new-flags.js';
import { terminalText } from './terminal-text.js';

/** Writes the forms of a new trial. On a terminal it asks what no flag says; in a script it asks nothing. */
export async function makeForms(folder: string, flags: NewFlags): Promise<number> {
  const refused = (reason: string) => {
    process.stderr.write(`${terminalText(`fairwall: ${reason}`)}\n`);
    return 2;
  };
  const stated = choicesOfFlags(flags);
  if (stated.kind === 'not-understood') return refused(stated.expected);
  try {
    // Before anybody answers questions.
    await checkFormsFolder(folder);
    const isTerminal = process.stdin.isTTY === true && process.stdout.isTTY === true;
    const choices = isTerminal ? await askChoices(stated.value, flags) : stated.value;
    if (choices === undefined) return refused('the questions were not answered, and nothing was written');
    await writeForms(choices, folder);
  } catch (error) {
    if (error instanceof FormsFolderError) return refused(error.message);
    throw error;
  }
  const file = (name: string) => join(folder, name);
  const lines = [
    `Workbook to fill in:  ${file(formFiles.workbook)} (begin with the sheet plan)`,
    `Sheets to print:      ${file(formFiles.recordingSheets)}`,
    `A filled example:     ${file(formFiles.example)}`,
    '',
    `Next: fairwall check ${folder}`,
  ];
  process.stdout.write(`${terminalText(lines.join('\n'))}\n`);
  return 0;
}
