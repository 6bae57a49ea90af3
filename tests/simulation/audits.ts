// How often each audit warns of nothing, and how often it finds a planted fault. Writes audits.json and audits.md beside this script.
// npm run coverage:audits: some minutes.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { auditsTable, simulateAudits } from './audits-trials.js';

const TRIALS = 10_000;

const file = simulateAudits(TRIALS);
const write = (name: string, text: string) => writeFileSync(join(process.cwd(), 'tests', 'simulation', name), text);
write('audits.json', `${JSON.stringify(file, null, 2)}\n`);
write('audits.md', auditsTable(file));
