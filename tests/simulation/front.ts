// Counts how often a damp front is found and its 95 % interval holds it, and writes front.json and front.md beside this script.
// npm run coverage:front: some ten minutes.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { countFronts, type FrontFile, frontTable } from './front-trials.js';

const PROFILES = 500;
const folder = join(process.cwd(), 'tests', 'simulation');

const rows = countFronts(PROFILES, 20260101);
const file: FrontFile = { source: '`npm run coverage:front`', profiles: PROFILES, rows };
writeFileSync(join(folder, 'front.json'), `${JSON.stringify(file, null, 1)}\n`);
writeFileSync(join(folder, 'front.md'), frontTable(file));
process.stdout.write(frontTable(file));
