import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bundledOpinion } from '../helpers/bundled-opinions.js';

interface Judged {
  readonly estimate: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
  readonly lower: number;
  readonly upper: number;
}

interface Reference {
  readonly tool: string;
  readonly cases: readonly { readonly trial: string; readonly inPairs: Judged }[];
}

const root = join(import.meta.dirname, '..', '..');
const reference: Reference = JSON.parse(
  readFileSync(join(root, 'tests', 'reference', 'bundled-trials', 'bundled-trials.json'), 'utf8'),
);

describe(`formOpinion against ${reference.tool}, which starts from the same weighings`, () => {
  it.each(reference.cases)('$trial', async ({ trial, inPairs }) => {
    const { primary } = await bundledOpinion(trial);
    if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
    const { estimate, standardError, degreesOfFreedom, pValue, interval } = primary.estimate;
    const ours = { estimate, standardError, degreesOfFreedom, pValue, lower: interval.lower, upper: interval.upper };
    for (const [name, value] of Object.entries(inPairs)) {
      const relativeError = Math.abs(ours[name as keyof Judged]! / value - 1);
      expect(relativeError, name).toBeLessThan(1e-10);
    }
  });
});
