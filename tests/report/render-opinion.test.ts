import { beforeAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../src/analysis/index.js';
import { escapeHtml } from '../../src/charts/escape-html.js';
import {
  estimateInWords,
  labelOf,
  readingLeftOutInWords,
  reasonInWords,
  wallLeftOutInWords,
} from '../../src/labels/index.js';
import type { Opinion } from '../../src/opinion/opinion.js';
import { type RenderedOpinion, renderOpinion } from '../../src/report/render-opinion.js';
import { measurementInWords } from '../../src/report/words/measurement-in-words.js';
import { escapeMarkdown } from '../../src/report/writers/escape-markdown.js';
import { opinionJson } from '../../src/report/writers/opinion-json.js';
import { displayText } from '../../src/words/display-text.js';
import { hostile, notAnswerable, opinionFixtures, worthwhile } from '../helpers/opinion-fixture.js';

const rendered: Record<string, RenderedOpinion> = {};

beforeAll(async () => {
  for (const [name, opinion] of Object.entries(opinionFixtures)) rendered[name] = await renderOpinion(opinion);
});

function of(name: string): RenderedOpinion {
  const result = rendered[name];
  if (result === undefined) throw new Error(`no opinion was rendered under the name ${name}`);
  return result;
}

/** Markdown with its escapes taken back, so that words can be looked for as they are. */
function readable(markdown: string): string {
  return markdown
    .replace(/\\([\\`*_[\]{}|~#$!@:.+\-=)])/g, '$1')
    .replace(/(\d)\\(?=[.)])/g, '$1')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');
}

/** The page's words: no charts, no tags. */
function words(html: string): string {
  return (
    html
      .replace(/<svg .*?<\/svg>/gs, '')
      .replace(/<style>.*?<\/style>/gs, '')
      .replace(/<[^>]+>/g, '')
      // The reader of the page sees a space here, only one that does not break.
      .replaceAll('\u00a0%', ' %')
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&quot;', '"')
      .replaceAll('&#39;', "'")
      .replaceAll('&amp;', '&')
  );
}

/** Every text of an opinion that its reader must find in the report. */
function wordsOf(estimate: Estimate): readonly string[] {
  const { label, method, assumptions } = estimateInWords(estimate);
  return [label, method, ...assumptions];
}

function textsOf(opinion: Opinion): readonly string[] {
  const { protocol, verdict } = opinion;
  const estimates = [...opinion.analyses, ...opinion.effectSizes].map((answer) =>
    answer.kind === 'estimated'
      ? wordsOf(answer.estimate)
      : [labelOf(answer.notEstimated), reasonInWords(answer.notEstimated.reason)],
  );
  return [
    protocol.title,
    protocol.claim,
    protocol.outcome.instrument,
    protocol.outcome.quantity,
    protocol.outcome.unit,
    protocol.allocation.by,
    protocol.disclosures.funding,
    protocol.disclosures.interests,
    ...protocol.arms.map(({ arm }) => arm),
    verdict.sentence,
    verdict.evidence,
    ...verdict.weaknesses.flatMap(({ text, remedy }) => [text, remedy]),
    ...estimates.flat(),
    ...(opinion.primary.kind === 'estimated'
      ? wordsOf(opinion.primary.estimate)
      : [reasonInWords(opinion.primary.reason)]),
    ...opinion.walls.flatMap(({ wall, block }) => [wall, block]),
    ...opinion.leftOutWalls.flatMap(({ wall, reason }) => [wall, wallLeftOutInWords(reason)]),
    ...opinion.leftOutReadings.map(({ reason }) => readingLeftOutInWords(reason)),
    ...opinion.files.map(({ file }) => file),
    ...opinion.timeline.events.flatMap(({ kind, walls, note }) => [kind, walls, note]),
    measurementInWords(opinion.measurement),
    opinion.fingerprint,
    opinion.version,
    `${opinion.seed}`,
  ].filter((text) => text !== '');
}

describe.each(Object.entries(opinionFixtures))('renderOpinion(%s)', (name, opinion) => {
  it('shows every text of the opinion in the page and in the Markdown', () => {
    const page = words(of(name).html);
    const markdown = readable(of(name).markdown);
    for (const text of textsOf(opinion)) {
      expect(page).toContain(displayText(text));
      expect(markdown).toContain(displayText(text));
    }
  });

  it('says the same under the same headings in both', () => {
    const inPage = [...of(name).html.matchAll(/<h([1-4])[^>]*>(.*?)<\/h\1>/g)].map(
      (match) => `${match[1]} ${words(match[2] ?? '')}`,
    );
    const inMarkdown = [...of(name).markdown.matchAll(/^(#+) (.*)$/gm)].map(
      (match) => `${match[1]?.length} ${readable(match[2] ?? '')}`,
    );
    expect(inMarkdown).toEqual(inPage);
    expect(inPage.length).toBeGreaterThan(10);
  });

  it('never shows a number that is none or an object', () => {
    for (const text of Object.values(of(name))) expect(text).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });

  it('never says that anything is proved or significant', () => {
    const all = words(of(name).html) + of(name).markdown;
    expect(all).not.toMatch(/\bprove[sdn]?\b|\bsignifican/i);
  });

  it('is one page that loads nothing and runs nothing', () => {
    const { html } = of(name);
    expect(html).not.toMatch(/<script|<link (?!rel="icon" href="data:,")|<img|<iframe|@import|url\(\s*['"]?https?:/i);
    const attributes = [...html.matchAll(/<[a-z][^>]*>/gi)].map((tag) => tag[0].replace(/"[^"]*"/g, '""'));
    expect(attributes.filter((tag) => /\s(on\w+|style)=/i.test(tag))).toEqual([]);
    expect(html).toContain('Content-Security-Policy');
    expect(html).toContain("default-src 'none'");
  });

  it('has no id twice', () => {
    const ids = [...of(name).html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
    expect(ids).toEqual([...new Set(ids)]);
  });
});

describe('the report of a paired trial beyond the margin', () => {
  it('gives the same three texts again', async () => {
    expect(await renderOpinion(worthwhile)).toEqual(of('worthwhile'));
  });

  it('begins with the claim, the verdict and the evidence, before any number of the table', () => {
    const page = words(of('worthwhile').html);
    const places = [
      'The device lowers wall moisture',
      'In this trial the treatment made',
      'The evidence is firm',
      'The primary analysis',
    ].map((text) => page.indexOf(text));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });

  it('says in words which way the treated walls went, with the signed value beside it', () => {
    const page = words(of('worthwhile').html);
    expect(page).toContain('the treated walls lost 2.71 % by mass more than the untreated walls');
    expect(page).toContain('95 % interval from −3.09 to −2.34 % by mass');
  });

  it('gives every wall’s before, after and change, in Markdown as in the page', () => {
    for (const { before = Number.NaN, after, change } of worthwhile.walls) {
      const numbers = [before, after, Math.abs(change)].map((value) => value.toFixed(2));
      for (const number of numbers) {
        expect(words(rendered.worthwhile?.html ?? '')).toContain(number);
        expect(readable(rendered.worthwhile?.markdown ?? '')).toContain(number);
      }
    }
  });

  it('compacts the rows left out, and writes days in words', () => {
    expect(words(of('worthwhile').html)).toContain('cores.csv rows 12–15, 18');
    expect(words(of('worthwhile').html)).toContain('1\u00a0March\u00a02024 to 31\u00a0May\u00a02024');
  });

  it('says how to check the fingerprint, with the names sorted', () => {
    expect(of('worthwhile').markdown).toContain(
      'LC_ALL=C sha256sum cores.csv protocol.json stations.csv walls.csv | sha256sum',
    );
  });

  it('describes each figure in the Markdown with its numbers', () => {
    const { markdown } = of('worthwhile');
    expect(markdown.match(/^\*\*Figure \d+\.\*\*/gm)).toHaveLength(7);
    expect(readable(markdown)).toContain('Difference of changes inside pairs: −2.71 (−3.09 to −2.34)');
    expect(readable(markdown)).toContain('Means before: 11.19 at 300 mm');
  });
});

describe('the report of a trial that cannot say', () => {
  it('has no chart of a difference, no interval, and says what was not stated', () => {
    const page = words(of('notAnswerable').html);
    expect(page).toContain('The primary difference has no interval: there are 8 treated and 0 untreated walls');
    expect(page).not.toContain('The primary analysis\n');
    expect(page).toContain('No margin was stated.');
    expect(page.match(/not stated/g)?.length).toBeGreaterThanOrEqual(3);
    expect(page).toContain('The plan bears no date.');
    expect(page).not.toContain('Moisture by height');
  });
});

describe('hostile text', () => {
  it('keeps what a wall is called literal, in the page, the charts and the Markdown', () => {
    const { html, markdown } = of('hostile');
    expect(html).not.toContain('<script>alert');
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(markdown).not.toMatch(/<(?!!)[a-z/]/i);
    expect(html.match(/<\/svg>/g)?.length).toBe(html.match(/<svg /g)?.length);
    for (const text of Object.values(of('hostile')).slice(0, 2)) {
      expect(text.replaceAll('\n', '')).not.toMatch(/(?![\u200c\u200d])[\p{Cc}\p{Cf}]/u);
    }
  });

  it('puts every folder text through the escape of its file', () => {
    const { html, markdown } = of('hostile');
    for (const { wall } of hostile.walls) {
      expect(html).toContain(escapeHtml(wall));
      expect(markdown).toContain(escapeMarkdown(wall));
    }
  });

  it('quotes a file name with an apostrophe for the shell', () => {
    expect(of('hostile').markdown).toContain(`sha256sum 'it'\\''s a trial.xlsx' protocol.json |`);
  });

  it('keeps the row lists short and says where the rest is', () => {
    expect(words(of('hostile').html)).toMatch(/ and 800 more rows, all of them in opinion\.json/);
  });
});

describe('opinionJson(opinion)', () => {
  it('has the contract’s keys in the contract’s order, and the additions after them', () => {
    const json = JSON.parse(of('worthwhile').json);
    expect(Object.keys(json)).toEqual([
      'format',
      'trial',
      'verdict',
      'threats',
      'primary',
      'analyses',
      'effectSizes',
      'margin',
      'relative',
      'notEstimated',
      'instruments',
      'units',
      'leftOut',
      'version',
      'seed',
      'plan',
      'walls',
      'stations',
      'armMeans',
      'changes',
      'heights',
      'agreement',
      'charts',
    ]);
    expect(json.format).toBe('fairwall-opinion/1');
    expect(Object.keys(json.trial)).toEqual(['title', 'fingerprint']);
    expect(Object.keys(json.verdict)).toEqual(['code', 'sentence', 'evidence', 'weaknesses']);
    expect(Object.keys(json.verdict.weaknesses[0])).toEqual(['code', 'seriousness', 'text', 'remedy']);
    expect(json.primary).toMatchObject({
      id: 'wall-change',
      method: 'paired-blocks',
      unit: '% by mass',
      estimate: -2.7134,
      interval: { level: 0.95, lower: -3.0917, upper: -2.3351 },
      standardError: 0.1719,
      degreesOfFreedom: 11,
      pValue: 0.000000012,
      walls: { treated: 12, untreated: 12, leftOut: [] },
    });
    const inWords = ['label', 'quantity', 'methodInWords', 'assumptions', 'source', 'facts'];
    expect(Object.keys(json.primary)).toEqual([
      'id',
      'method',
      'unit',
      'estimate',
      'interval',
      'standardError',
      'degreesOfFreedom',
      'pValue',
      'walls',
      ...inWords,
    ]);
    const more = [...inWords, 'unit', 'standardError', 'degreesOfFreedom', 'walls', 'monteCarlo'];
    expect(json.analyses.map(Object.keys)).toEqual([
      ['id', 'estimate', 'interval', 'pValue', ...more],
      ['id', 'estimate', 'interval', 'pValue', ...more],
    ]);
    expect(json.analyses[1].interval).toBeNull();
    expect(json.effectSizes.map(Object.keys)).toEqual([['id', 'estimate', 'interval', ...more]]);
    expect(json.notEstimated).toEqual([
      {
        ...{ id: 'log-response-ratio', label: 'Log response ratio' },
        reason: 'a ratio needs positive mean values in both arms',
        why: { code: 'ratio-needs-positive-means' },
      },
    ]);
    expect(json.leftOut).toEqual({
      walls: [],
      readings: [
        {
          reason: 'outside the before and the after window',
          count: 5,
          rows: [12, 13, 14, 15, 18].map((row) => ({ file: 'cores.csv', row })),
        },
      ],
    });
  });

  it('writes null for what was not estimated, and says why', () => {
    const json = JSON.parse(of('notAnswerable').json);
    expect(json.primary).toEqual({
      id: 'wall-change',
      method: null,
      unit: '% by mass',
      estimate: null,
      interval: null,
      standardError: null,
      degreesOfFreedom: null,
      pValue: null,
      walls: { treated: 8, untreated: 0, leftOut: [] },
    });
    expect(json.notEstimated.map(({ id }: { id: string }) => id)).toEqual(['wall-change', 'randomisation']);
  });

  it('names the walls left out, and every row of every reading', () => {
    const json = JSON.parse(of('hostile').json);
    expect(json.primary.walls.leftOut).toEqual(hostile.leftOutWalls.map(({ wall }) => wall));
    expect(json.leftOut.walls).toEqual(
      hostile.leftOutWalls.map(({ wall, reason }) => ({ wall, reason: wallLeftOutInWords(reason) })),
    );
    expect(json.leftOut.readings[1].rows).toHaveLength(1200);
  });

  it('refuses a number that is none, naming its place', () => {
    const broken: Opinion = {
      ...notAnswerable,
      effectSizes: worthwhile.effectSizes.map((answer) =>
        answer.kind === 'estimated'
          ? {
              kind: 'estimated',
              estimate: { ...answer.estimate, interval: { level: 0.95, lower: Number.NEGATIVE_INFINITY, upper: 1 } },
            }
          : answer,
      ),
    };
    expect(() => opinionJson(broken)).toThrow('opinion.json: effectSizes.0.interval.lower is -Infinity');
  });
});

describe('the same bytes from engines whose functions differ in the last digit', () => {
  it.each(Object.keys(opinionFixtures))(
    '%s: twelve significant digits in the JSON, thousandths in the pictures',
    (name) => {
      const { html, json } = of(name);
      const numbers: number[] = [];
      JSON.parse(json, (_, value) => {
        if (typeof value === 'number') numbers.push(value);
        return value;
      });
      expect(numbers.length).toBeGreaterThan(10);
      expect(numbers.filter((value) => Number(value.toPrecision(12)) !== value)).toEqual([]);
      const tags = [...html.matchAll(/<svg .*?<\/svg>/gs)].flatMap(([svg]) => svg.match(/ d="[^"]*"/g) ?? []);
      expect(tags.length).toBeGreaterThan(10);
      expect(tags.filter((tag) => /\.\d{4}/.test(tag))).toEqual([]);
    },
  );
});
