import fc from 'fast-check';
import { expect, it } from 'vitest';
import { formOpinion, verdictOfTrial } from '../src/opinion/index.js';
import { checkTrial } from '../src/records/index.js';
import { renderOpinion } from '../src/report/index.js';
import { opinionJson } from '../src/report/writers/opinion-json.js';
import { describeProblem } from '../src/trial/index.js';
import { widelyMangled } from './helpers/mangle-wider.js';
import { ofSweep } from './helpers/sweep.js';
import { inFolder } from './helpers/valid-folder.js';

/** `npm run fuzz` makes ten thousand; `FUZZ_RUNS` any other number, `PROPERTY_SEED` others. */
const runs = Number(process.env.FUZZ_RUNS ?? 1000);

/** Every folder is judged. One in so many opinions is formed whole, and one in so many written out with its charts, which takes longest. */
const formed = process.env.FUZZ_RUNS === undefined ? ofSweep(1, 60) : 1;
const drawn = process.env.FUZZ_RUNS === undefined ? ofSweep(10, 120) : 10;

it(`${runs} folders, widely mangled, are refused or judged, and nothing breaks`, async () => {
  const seen = { refused: 0, opinions: 0, reports: 0 };
  const crashes = new Map<string, number>();
  const slow: number[] = [];
  let last = '';
  await fc.assert(
    fc.asyncProperty(await widelyMangled(), async ({ kind, files }) => {
      const began = performance.now();
      try {
        const check = await inFolder(files, checkTrial);
        if (check.kind === 'problems') {
          seen.refused++;
          expect(check.problems.map(describeProblem).filter((line) => /[\p{Cc}\p{Zl}\p{Zp}]/u.test(line))).toEqual([]);
        } else {
          seen.opinions++;
          if (seen.opinions % formed === 0) opinionJson(formOpinion(check.trial));
          else verdictOfTrial(check.trial, 1);
          if (seen.opinions % drawn === 0) {
            seen.reports++;
            await renderOpinion(formOpinion(check.trial));
          }
        }
      } catch (error) {
        const where =
          error instanceof Error ? (error.stack ?? '').split('\n').find((line) => line.includes('/src/')) : '';
        last = JSON.stringify(files, (_, value) => (value instanceof Uint8Array ? 'bytes' : value)).slice(0, 4000);
        const what = `${kind}: ${String(error).slice(0, 200)} ${where?.trim().replace(/.*\/src\//, 'src/')}`;
        if (!crashes.has(what) && runs > 1000) process.stderr.write(`${what}\n${last}\n`);
        crashes.set(what, (crashes.get(what) ?? 0) + 1);
      }
      slow.push(performance.now() - began);
    }),
    { numRuns: runs, endOnFailure: true },
  );
  if (runs > 1000)
    process.stderr.write(
      `${JSON.stringify(seen)}, slowest ${Math.round(slow.reduce((a, b) => Math.max(a, b), 0))} ms\n`,
    );
  expect(Object.fromEntries(crashes)).toEqual({});
  expect(seen.opinions).toBeGreaterThan(runs / 20);
  expect(seen.refused).toBeGreaterThan(runs / 20);
  if (runs >= 1000) expect(seen.reports).toBeGreaterThan(0);
}, 3_600_000);
