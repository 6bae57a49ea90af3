import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formOpinion, verdictOfTrial } from '../src/opinion/index.js';
import { checkTrial } from '../src/records/index.js';
import { renderOpinion } from '../src/report/index.js';
import { opinionJson } from '../src/report/writers/opinion-json.js';
import { mangledFolder } from './helpers/mangle-folder.js';
import { ofSweep } from './helpers/sweep.js';
import { inFolder, validFolder } from './helpers/valid-folder.js';

/** Numbers where numbers belong, and no trace of a program. */
function expectSoundText(text: string): void {
  expect(text).not.toMatch(/\bNaN\b|\bundefined\b|-?Infinity\b|\[object /);
}

/** Every folder is judged, and one in so many opinions is formed whole. */
const formed = ofSweep(1, 5);

/** The keys at which a number stands that is none. */
function endlessIn(value: unknown, key = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [key];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, each]) => endlessIn(each, name));
}

/** What the folder itself says may hold any word; the words of the report may not. */
const tame = { 'protocol.json': validFolder()['protocol.json'] ?? '' };

// Hundreds of whole opinions: longer on a busy machine than a test may usually take.
describe('from a mangled folder to an opinion', { timeout: 120_000 }, () => {
  it('either refuses or gives an opinion of finite numbers, and never breaks', async () => {
    let opinions = 0;
    await fc.assert(
      fc.asyncProperty(mangledFolder(validFolder()), async (files) => {
        const check = await inFolder(files, checkTrial);
        if (check.kind === 'problems') return;
        opinions++;
        if (opinions % formed !== 0) {
          const { verdict, threats } = verdictOfTrial(check.trial, 1);
          expect(endlessIn({ verdict, threats })).toEqual([]);
          // It throws at a number that is none, which JSON would turn into nothing.
        } else opinionJson(formOpinion(check.trial));
      }),
      { numRuns: ofSweep(400, 40) },
    );
    expect(opinions).toBeGreaterThanOrEqual(ofSweep(51, formed));
  });

  it('writes no NaN, undefined or Infinity in any of the three files', async () => {
    let opinions = 0;
    await fc.assert(
      fc.asyncProperty(mangledFolder(validFolder()), async (files) => {
        const check = await inFolder({ ...files, ...tame }, checkTrial);
        if (check.kind === 'problems' || /NaN|undefined|Infinity|object/.test(JSON.stringify(files))) return;
        opinions++;
        const { json, markdown, html } = await renderOpinion(formOpinion(check.trial));
        for (const text of [json, markdown, html]) expectSoundText(text);
        expect(html.endsWith('</html>\n')).toBe(true);
      }),
      { numRuns: ofSweep(90, 20) },
    );
    expect(opinions).toBeGreaterThan(ofSweep(6, 1));
  });
});
