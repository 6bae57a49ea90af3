import { describe, expect, it } from 'vitest';
import type { Opinion } from '../../../src/opinion/opinion.js';
import { knownRates } from '../../../src/planning/error-rates/known-rates.js';
import { nearestRates } from '../../../src/planning/error-rates/nearest-rates.js';
import { rateDesigns, trueEffects } from '../../../src/planning/error-rates/rate-designs.js';
import { renderOpinion } from '../../../src/report/index.js';
import { notAnswerable, worthwhile } from '../../helpers/opinion-fixture.js';

const { primary } = worthwhile;
if (primary.kind !== 'estimated') throw new Error('the fixture has an interval');

/** The fixture, 12 pairs, with another primary answer. */
function having(
  method: Extract<Opinion['primary'], { kind: 'estimated' }>['method'],
  walls: { treated: number; untreated: number },
  halfWidth: number,
  changes: Partial<Opinion> = {},
): Opinion {
  if (primary.kind !== 'estimated') return worthwhile;
  const interval = { level: 0.95, lower: -4 - halfWidth, upper: -4 + halfWidth };
  const estimate = { ...primary.estimate, walls, interval };
  return {
    ...worthwhile,
    primary: { ...primary, method, estimate },
    threats: [],
    leftOutWalls: [],
    walls: [],
    ...changes,
  };
}

const counted = new Set(knownRates.map(({ design }) => design));
const idOf = (opinion: Opinion) => nearestRates(opinion)?.design.id;
const kindsOf = (opinion: Opinion) => nearestRates(opinion)?.differences.map(({ kind }) => kind);

describe('nearestRates', () => {
  it.each(
    rateDesigns
      .filter(({ id, trouble }) => trouble === 'nothing' && counted.has(id))
      .map((one) => [one.id, one] as const),
  )('finds the design itself for a trial that is like it, %s', (id, { design }) => {
    const own = nearestRates(worthwhile);
    expect(own).toBeDefined();
    const methods = {
      complete: 'welch',
      houses: 'welch',
      pairs: 'paired-blocks',
      'blocks-of-four': 'block-model',
    } as const;
    const each = design.layout === 'houses' ? design.wallsPerHouse : 1;
    const walls = { treated: design.treated / each, untreated: design.untreated / each };
    const units = { ...worthwhile.units, kind: design.layout === 'houses' ? ('site' as const) : ('wall' as const) };
    // The half-width that the design has on average.
    const useless = knownRates.find((row) => row.design === id && row.truth === 0);
    const precise = useless?.verdicts.meanHalfWidth ?? Number.NaN;
    const same = [
      id,
      ...(id === 'no-season-16' ? ['complete-16'] : []),
      ...(id === 'complete-16' ? ['no-season-16'] : []),
    ];
    expect(same).toContain(idOf(having(methods[design.layout], walls, precise, { units })));
  });

  it('quotes every truth, and the evidence of all of them', () => {
    const rates = nearestRates(having('welch', { treated: 8, untreated: 8 }, 1));
    expect(rates?.rows.map(({ truth }) => truth)).toEqual(trueEffects);
    expect(rates?.evidence.trials).toBe(100);
  });

  it('says in what they differ', () => {
    expect(kindsOf(having('welch', { treated: 9, untreated: 8 }, 1))).toEqual(['units']);
    expect(kindsOf(having('welch', { treated: 8, untreated: 8 }, 6))).toContain('precision');
    const chosen = { ...worthwhile.protocol, allocation: { method: 'chosen', by: 'the owner' } } as const;
    expect(kindsOf(having('welch', { treated: 8, untreated: 8 }, 1, { protocol: chosen }))?.[0]).toBe('not-randomised');
  });

  it('takes a design with a trouble only for a trial that shows it', () => {
    const lost = [1, 2, 3].map((one) => ({ wall: `L${one}`, reason: { code: 'no-after' } as const }));
    expect(idOf(having('welch', { treated: 8, untreated: 8 }, 1, { leftOutWalls: lost }))).toBe('lost-16');
    const series = nearestRates(having('paired-series', { treated: 1, untreated: 1 }, 5));
    const isCounted = counted.has('two-walls');
    expect(series?.design.id === 'two-walls').toBe(isCounted);
    expect(series?.differences.some((one) => one.kind === 'trouble' && one.trouble === 'two-walls')).toBe(!isCounted);
    const quoted = [2, 4, 8, 12].flatMap((each) => idOf(having('welch', { treated: each, untreated: each }, 1)) ?? []);
    const troubled = new Set(rateDesigns.flatMap(({ id, trouble }) => (trouble === 'nothing' ? [] : [id])));
    expect(quoted.filter((id) => troubled.has(id))).toEqual([]);
  });

  it('quotes nothing without an interval or a margin', () => {
    expect(nearestRates(notAnswerable)).toBeUndefined();
    const { margin: _, ...protocol } = worthwhile.protocol;
    expect(nearestRates({ ...worthwhile, protocol })).toBeUndefined();
  });
});

describe('the report of an opinion with error rates beside it', () => {
  it('says how often such a trial would mislead, with the numbers of opinion.json', async () => {
    const errorRates = nearestRates(having('welch', { treated: 9, untreated: 8 }, 1));
    if (errorRates === undefined) throw new Error('nothing was quoted');
    const { html, markdown, json } = await renderOpinion(worthwhile, { errorRates });
    const { rows, design, differences } = JSON.parse(json).errorRates;
    expect(design.id).toBe(errorRates.design.id);
    expect(rows).toHaveLength(trueEffects.length);
    expect(differences).toEqual([
      { kind: 'units', own: { treated: 9, untreated: 8 }, design: { treated: 8, untreated: 8 } },
    ]);
    const useless = Math.round((1000 * (rows[0].verdicts.worthwhile ?? 0)) / rows[0].trials);
    for (const text of [html, markdown]) {
      expect(text).toContain('Error rates of such a trial');
      expect(text).toContain('9 treated against 8 untreated');
    }
    expect(html).toContain(
      `worthwhile in ${useless === 0 && (rows[0].verdicts.worthwhile ?? 0) > 0 ? 'under 1' : useless} of 1000`,
    );
  });

  it('says nothing of it where nothing is handed over', async () => {
    const { html, json } = await renderOpinion(worthwhile);
    expect(html).not.toContain('Error rates of such a trial');
    expect(Object.keys(JSON.parse(json))).not.toContain('errorRates');
  });
});
