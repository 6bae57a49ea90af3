import { describe, expect, it } from 'vitest';
import type { Opinion } from '../../src/opinion/opinion.js';
import { knownRates } from '../../src/planning/error-rates/known-rates.js';
import { nextTrial } from '../../src/planning/index.js';
import { reportDocument } from '../../src/report/report-document.js';
import { toMarkdown } from '../../src/report/writers/to-markdown.js';
import { bundledOpinion, bundledTrial } from '../helpers/bundled-opinions.js';

async function pageOf(name: string): Promise<{ readonly opinion: Opinion; readonly text: string }> {
  const opinion = await bundledOpinion(name);
  const next = nextTrial(await bundledTrial(name), opinion);
  return { opinion, text: toMarkdown(reportDocument(opinion, next === undefined ? {} : { nextTrial: next })) };
}

describe('the first pages', () => {
  it('count every point that makes a conclusion impossible, and say nothing of walls or changes that there are not', async () => {
    const { opinion, text } = await pageOf('water-up-a-wall');
    const fatal = opinion.threats.filter(({ seriousness, finding }) => seriousness === 'fatal' && finding === 'found');
    expect(fatal).toHaveLength(2);
    expect(text).toContain('2 points each make any conclusion impossible');
    expect(text).toContain('No wall was compared.');
    expect(text).not.toContain('the change that was seen');
  });

  it('say why fewer points count than are listed, and only there', async () => {
    const minor = ({ threats }: Opinion) =>
      threats.filter(({ finding, seriousness }) => finding === 'found' && seriousness === 'minor').length;
    const several = await pageOf('season-dries-both');
    expect(minor(several.opinion)).toBe(3);
    expect(several.text).toContain('and 2 minor points do. Points that rest on the same thing count once.');
    const single = await pageOf('paired-garden-walls');
    expect(minor(single.opinion)).toBe(1);
    expect(single.text).toContain('minor point does.');
    expect(single.text).not.toContain('Points that rest on the same thing');
  });

  it('name no threat that works against the claim as what may have flattered it', async () => {
    const { opinion, text } = await pageOf('condensing-store-walls');
    const source = opinion.threats.find(({ code }) => code === 'water-from-elsewhere');
    expect(source).toMatchObject({ finding: 'found', direction: 'away from the claim' });
    const range = text.split('\n').find((line) => line.includes('A more cautious expert')) ?? '';
    expect(range).not.toContain(source?.name);
    expect(range).toContain('A plan that nobody sealed');
  });

  it('say that a wait counted with more than the surfaces showed is a lower bound', async () => {
    const { opinion, text } = await pageOf('condensing-store-walls');
    const surface = opinion.drying?.wait?.worst?.wait.surface_pa ?? Number.NaN;
    expect(surface).toBeLessThan(100);
    expect(text).toContain(`${Math.round(surface)} Pa: such walls dry more slowly`);
    expect(text).toContain('the wait is a lower bound');
  });

  it('tell no curve of drying of what a wall takes up', async () => {
    const { opinion } = await pageOf('piers-in-trays');
    expect(opinion.drying).toMatchObject({ kind: 'not-shown', reason: { code: 'outcome-is-uptake' } });
  });

  it('say of two walls the coverage of such intervals, as counted', async () => {
    const shares = knownRates.flatMap(({ design, verdicts: { held, intervals } }) =>
      design === 'two-walls' ? [Math.round((100 * held) / intervals)] : [],
    );
    expect(shares).toHaveLength(5);
    const { text } = await pageOf('windward-and-sheltered');
    expect(text).toContain(`the coverage of 95 % intervals was ${Math.min(...shares)} to ${Math.max(...shares)} %`);
    expect((await pageOf('paired-garden-walls')).text).not.toContain('simulated pairs of walls');
  });

  it('end with the trial that would settle it, the walls of its table on the first page too, or with why none is given', async () => {
    const wet = await bundledTrial('picked-for-being-wet');
    const next = nextTrial(wet, await bundledOpinion('picked-for-being-wet'));
    if (next?.kind !== 'planned') throw new Error('not planned');
    const [least] = next.ways[0]?.sizes ?? [];
    const walls = least?.needed.kind === 'found' ? least.needed.walls : Number.NaN;
    const { text } = await pageOf('picked-for-being-wet');
    expect(text).toContain(`About ${walls} walls like these`);
    expect(text).toContain(`| 80 % | ${walls} |`);
    expect((await pageOf('two-walls')).text).toContain('No number of walls is given');
    expect((await pageOf('paired-garden-walls')).text).not.toContain('The trial that would settle it');
  });
});
