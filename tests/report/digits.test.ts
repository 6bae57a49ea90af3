import { describe, expect, it } from 'vitest';
import { reportDocument } from '../../src/report/report-document.js';
import { toMarkdown } from '../../src/report/writers/to-markdown.js';
import { bundledOpinion, bundledTrials } from '../helpers/bundled-opinions.js';

/** Below one with three digits or more that count. */
const tooFine = /(?<![\d.])0\.0*[1-9]\d{2,}(?!\d)/;

describe.each(bundledTrials)('the numbers of the opinion on %s', (name) => {
  it('set thousands apart by a narrow space from ten thousand on, and in no other way', async () => {
    const words = toMarkdown(reportDocument(await bundledOpinion(name)));
    expect(words.match(/.{20}(?<![\d.])\d{1,3}(?:,\d{3})+(?![\d,]).{10}/g) ?? []).toEqual([]);
    expect(words.match(/(?<![\d\u202f])\d{1}\u202f\d{3}(?!\d)/g) ?? []).toEqual([]);
  });

  it('tell a bias that would change the verdict no finer than to two digits below one', async () => {
    const { threats } = await bundledOpinion(name);
    expect(threats.map(({ tipping }) => tipping).filter((words) => tooFine.test(words))).toEqual([]);
  });
});

describe('what counts as too fine', () => {
  it('is 0.162 and 0.0429, not 0.16, 0.043, 0.05 or 10.125', () => {
    expect(['0.162', '0.0429', '0.16', '0.043', '0.05', '10.125'].map((number) => tooFine.test(number))).toEqual([
      ...[true, true, false, false, false, false],
    ]);
  });
});
