import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { cp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkTrial, readTrial } from '../../src/records/index.js';
import { withShownPhotographs } from '../../src/report/paper/shown-photographs.js';
import { reportDocument } from '../../src/report/report-document.js';
import { toHtml } from '../../src/report/writers/to-html.js';
import { toMarkdown } from '../../src/report/writers/to-markdown.js';
import { worthwhile } from '../helpers/opinion-fixture.js';

const title = 'Two walls of one house';
let folder = '';

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fairwall-commission-'));
  await cp(join(import.meta.dirname, '../../datasets/two-walls'), folder, { recursive: true });
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

function write(commission: object | string): void {
  const text = typeof commission === 'string' ? commission : JSON.stringify(commission, null, 2);
  writeFileSync(join(folder, 'commission.json'), text);
}

const format = 'fairwall-commission/1';
/** A green picture of 8 by 4 with a place in its metadata. */
const picture = () =>
  sharp({ create: { width: 8, height: 4, channels: 3, background: '#080' } })
    .withExif({ IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1' } })
    .jpeg()
    .toBuffer();

describe('commission.json', () => {
  it('may be absent: nothing is then stated', async () => {
    expect((await readTrial(folder)).commission).toBeUndefined();
  });

  it('is read, leaves the trial’s fingerprint as it was, and has its own, which its photographs change', async () => {
    const before = (await readTrial(folder)).source.fingerprint;
    write({ format, trial: title, author: ' A  Surveyor ', questions: ['Did it work?'], opinionOn: '2025-06-01' });
    const { commission, source } = await readTrial(folder);
    expect(source.fingerprint).toBe(before);
    expect(commission).toMatchObject({ author: 'A Surveyor', questions: ['Did it work?'], opinionOn: '2025-06-01' });
    expect(commission?.fingerprint).toMatch(/^[0-9a-f]{64}$/);
    writeFileSync(join(folder, 'north.jpg'), await picture());
    const withPhotograph = { format, photographs: [{ file: 'north.jpg', caption: 'North wall' }] };
    write(withPhotograph);
    const one = (await readTrial(folder)).commission?.fingerprint;
    writeFileSync(join(folder, 'north.jpg'), Buffer.concat([await picture(), Buffer.from([0])]));
    expect((await readTrial(folder)).commission?.fingerprint).not.toBe(one);
  });

  it('may name the trial by its fingerprint', async () => {
    write({ format, trial: (await readTrial(folder)).source.fingerprint });
    expect((await checkTrial(folder)).kind).toBe('trial');
  });

  it.each([
    ['another trial', { format, trial: 'Ten other walls' }, 'trial', 'another trial'],
    [
      'a photograph that is missing',
      { format, photographs: [{ file: 'nort.jpg', caption: 'x' }] },
      'photographs[0].file',
      'no file',
    ],
    [
      'a photograph that is none',
      { format, photographs: [{ file: 'walls.csv', caption: 'x' }] },
      'photographs[0].file',
      'neither',
    ],
    [
      'a file of another folder',
      { format, photographs: [{ file: '../x.jpg', caption: 'x' }] },
      'photographs[0].file',
      'no file',
    ],
    [
      'a photograph of 200 MB',
      { format, photographs: [{ file: 'huge.jpg', caption: 'x' }] },
      'photographs[0].file',
      '200 MB',
    ],
    ['a day that is none', { format, opinionOn: '2025-02-30' }, 'opinionOn', '2025-02-30'],
    ['a misspelt key', { format, autor: 'x' }, 'autor', 'unknown key'],
    ['no format', { author: 'x' }, 'format', 'no key'],
    ['an empty author', { format, author: ' ' }, 'author', '" "'],
  ])('refuses %s, by line and key', async (_, commission, column, found) => {
    writeFileSync(join(folder, 'huge.jpg'), Buffer.from([0xff, 0xd8, 0xff]));
    truncateSync(join(folder, 'huge.jpg'), 200 * 2 ** 20);
    write(commission);
    const check = await checkTrial(folder);
    const problems = check.kind === 'problems' ? check.problems : [];
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ file: 'commission.json', column });
    expect(problems[0]?.found).toContain(found);
    expect(problems[0]?.row).toBeGreaterThan(0);
  });

  it('refuses what is no JSON, by line and column', async () => {
    write('{\n  "format": fairwall\n}');
    const check = await checkTrial(folder);
    expect(check.kind === 'problems' ? check.problems[0] : undefined).toMatchObject({
      file: 'commission.json',
      row: 2,
      column: '13',
    });
  });
});

describe('the commission in the report', () => {
  const commission = {
    ...{ fingerprint: 'f'.repeat(64), author: 'A <b>Surveyor</b>', client: 'The owner', interests: 'none' },
    ...{
      questions: ['Did it work?'],
      documents: [],
      references: ['A book, 1990.'],
      declaration: 'These are my words.',
    },
  };

  it('stands where a line was to fill in, its photographs embedded without the place where they were taken', {
    timeout: 60_000,
  }, async () => {
    const bytes = await picture();
    expect((await sharp(bytes).metadata()).exif).toBeDefined();
    const opinion = await withShownPhotographs({
      ...worthwhile,
      commission: { ...commission, photographs: [{ file: 'north.jpg', caption: 'The north wall', bytes }] },
    });
    const shown = opinion.commission?.photographs[0]?.bytes ?? new Uint8Array();
    const { exif, width, format } = await sharp(shown).metadata();
    expect({ exif, width, format }).toEqual({ exif: undefined, width: 8, format: 'jpeg' });
    const html = await toHtml(reportDocument(opinion));
    expect(html).toContain('A &lt;b&gt;Surveyor&lt;/b&gt;');
    expect(html).toMatch(/<img src="data:image\/jpeg;base64,[^"]+" alt="The north wall">/);
    expect(html).toMatch(/Annex [A-Z]\. Photographs/);
    const markdown = toMarkdown(reportDocument(opinion));
    for (const text of ['The owner', 'Did it work?', 'A book, 1990.', 'These are my words.']) {
      expect(html).toContain(text);
      expect(markdown.replaceAll('\\', '')).toContain(text);
    }
  });

  it('scales what is larger than a page can show', async () => {
    const bytes = await sharp({ create: { width: 4000, height: 1000, channels: 3, background: '#888' } })
      .png()
      .toBuffer();
    const photographs = [{ file: 'wide.png', caption: 'Wide', bytes }];
    const shown = await withShownPhotographs({ ...worthwhile, commission: { ...commission, photographs } });
    const { width, height } = await sharp(shown.commission?.photographs[0]?.bytes).metadata();
    expect({ width, height }).toEqual({ width: 1600, height: 400 });
  });

  it('refuses a picture that breaks off', async () => {
    const photographs = [{ file: 'cut.jpg', caption: 'Cut', bytes: new Uint8Array([0xff, 0xd8, 0xff, 0xe0]) }];
    await expect(withShownPhotographs({ ...worthwhile, commission: { ...commission, photographs } })).rejects.toThrow(
      'cut.jpg',
    );
  });
});
