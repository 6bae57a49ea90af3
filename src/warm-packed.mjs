// node src/warm-packed.mjs SCRATCH-FOLDER: runs packed verbs once and keeps the bytecode of what they used; see bundle.mjs.
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { loadPacked } from './load-packed.mjs';

const root = join(import.meta.dirname, '..');
const [scratch] = process.argv.slice(2);
const trial = join(root, 'datasets/paired-garden-walls');
const { exports, keep } = loadPacked(pathToFileURL(join(root, 'dist/cli.js')));
const statuses = [
  await exports.checkFolder(trial, join(scratch, 'check'), false),
  await exports.giveOpinion(trial, join(scratch, 'opinion'), false, { pdf: false, word: false, figures: false }),
];
if (statuses.some((status) => status !== 0)) throw new Error(`the verbs ended with ${statuses.join(' and ')}`);
keep();
