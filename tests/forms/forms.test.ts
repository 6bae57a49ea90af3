import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readSheet } from 'read-excel-file/node';
import { afterAll, describe, expect, it, onTestFinished, vi } from 'vitest';
import { notesOf } from '../../src/forms/column-notes.js';
import {
  defaultChoices,
  type FormChoices,
  heightsIn,
  placesOf,
  wallNames,
  wallsIn,
} from '../../src/forms/form-choices.js';
import { planQuestions } from '../../src/forms/plan-questions.js';
import { recordingSheets } from '../../src/forms/recording-sheets.js';
import { trialSheets } from '../../src/forms/trial-sheets.js';
import { FormsFolderError, formFiles, writeForms } from '../../src/forms/write-forms.js';
import { writeWorkbook } from '../../src/forms/write-workbook.js';
import { tableLayouts, tableNames } from '../../src/records/folder/table-layouts.js';

const scratch = mkdtempSync(join(tmpdir(), 'fairwall-forms-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const choices: FormChoices = {
  title: 'Cellar <walls>',
  cores: true,
  meter: 'resistance',
  walls: 4,
  heights_mm: [150, 900],
};

describe('trialSheets', () => {
  it.each(tableNames)(
    'has the columns of the layout of %s and no other; of those with a station, stations says the place',
    (table) => {
      const { needed, optional } = tableLayouts[table];
      const places = ['height_mm', 'depth_mm', 'position_mm'];
      const all: readonly string[] = [...needed, ...optional];
      const saysStation = table !== 'stations' && all.includes('station');
      const own = all.filter((column) => !saysStation || !places.includes(column));
      expect([...notesOf(table).keys()].toSorted()).toEqual(own.toSorted());
    },
  );

  it('has the sheets of what is read, and of nothing else', () => {
    const names = (of: FormChoices) => trialSheets(of).map(({ name }) => name);
    expect(names(choices)).toContain('readings');
    expect(names(defaultChoices)).toContain('batches');
    expect(names(defaultChoices)).not.toContain('readings');
    expect(names({ ...choices, cores: false })).not.toContain('cores');
  });

  it('names walls and places, and leaves their arms to whoever allocates them', () => {
    const sheets = trialSheets(choices);
    expect(sheets.find(({ name }) => name === 'walls')?.rows).toEqual([['W01'], ['W02'], ['W03'], ['W04']]);
    expect(sheets.find(({ name }) => name === 'stations')?.rows).toHaveLength(8);
  });

  it('lists arms and instruments from the cells of the plan that name them', () => {
    const questions = planQuestions(choices);
    const [walls, readings] = ['walls', 'readings'].map((sheet) =>
      trialSheets(choices).find(({ name }) => name === sheet),
    );
    const listOf = (sheet: typeof walls, heading: string) => {
      const column = sheet?.columns.findIndex((one) => one.heading === heading);
      return sheet?.rules.find((rule) => rule.column === column && rule.choices !== undefined)?.choices;
    };
    const rows = (list: ReturnType<typeof listOf>) =>
      list?.kind === 'names' ? [...list.cells.matchAll(/\d+/g)].map(([row]) => questions[Number(row) - 2]?.key) : [];
    expect(rows(listOf(walls, 'arm'))).toEqual(['arms.1.arm', 'arms.3.arm']);
    expect(rows(listOf(readings, 'instrument'))).toEqual(['instruments.1.instrument', 'instruments.3.instrument']);
  });

  it('answers no question that somebody has yet to decide', () => {
    const answered = planQuestions(choices)
      .filter(({ answer }) => answer !== '')
      .map(({ key }) => key);
    for (const key of [
      'allocation.method',
      'blinding.readers',
      'margin',
      'plannedOn',
      'selection',
      'disclosures.funding',
    ])
      expect(answered).not.toContain(key);
  });
});

describe('writeWorkbook', () => {
  it('is read back by read-excel-file, cell by cell', async () => {
    const sheets = trialSheets(choices);
    const bytes = Buffer.from(await writeWorkbook(sheets));
    for (const { name, columns, rows } of sheets) {
      const [header, ...cells] = await readSheet(bytes, name);
      expect(header).toEqual(columns.map(({ heading }) => heading));
      if (name === 'stations') expect(cells.slice(0, 8).map((row) => row.slice(0, 3))).toEqual(rows);
    }
  });

  it('gives the same bytes on another day', async () => {
    const written = async (day: string) => {
      vi.useFakeTimers({ toFake: ['Date'], now: new Date(day) });
      onTestFinished(() => void vi.useRealTimers());
      return Buffer.from(await writeWorkbook(trialSheets(choices).slice(0, 3)));
    };
    const first = await written('2026-03-02T08:00:00Z');
    expect(await written('2027-11-30T17:30:00Z')).toEqual(first);
  });

  it('keeps within what spreadsheet programs take in a list, a note and a title', () => {
    for (const { name, rules } of trialSheets(choices))
      for (const { title, note, choices: list } of rules) {
        expect(note.length, `${name}, ${title}`).toBeLessThanOrEqual(255);
        expect(title.length, `${name}, ${title}`).toBeLessThanOrEqual(32);
        if (list?.kind !== 'words') continue;
        expect(list.words.join(',').length, `${name}, ${title}`).toBeLessThanOrEqual(253);
        // A comma or a quote would end a word of the list.
        expect(list.words.join('')).not.toMatch(/[",]/);
      }
  });
});

describe('recordingSheets', () => {
  const page = recordingSheets(choices);

  it('has every place in the order of walking, and no arm', () => {
    const shown = [...page.matchAll(/<th scope="row">(W\d+-\d+)<\/th>/g)].map(([, place]) => place);
    expect(shown).toEqual(placesOf(choices).map(({ station }) => station));
    expect(page).not.toMatch(/control/);
  });

  it('takes a title as text', () => {
    expect(page).toContain('Cellar &lt;walls&gt;');
    expect(page).not.toContain('<walls>');
  });

  it('warns of drilling only where something is drilled', () => {
    expect(page).toMatch(/asbestos/);
    expect(recordingSheets({ ...choices, cores: false })).not.toMatch(/asbestos/);
  });
});

describe('writeForms', () => {
  it('writes all forms to a folder that is missing, or empty', async () => {
    const empty = join(scratch, 'empty');
    mkdirSync(empty);
    for (const folder of [empty, join(scratch, 'not', 'there', 'yet')]) {
      await writeForms(choices, folder);
      expect(Object.values(formFiles).filter((file) => !existsSync(join(folder, file)))).toEqual([]);
    }
    expect(readdirSync(scratch).filter((name) => name.startsWith('.'))).toEqual([]);
  });

  it('refuses a folder that holds anything, and leaves it as it was', async () => {
    const folder = join(scratch, 'taken');
    mkdirSync(folder);
    writeFileSync(join(folder, 'trial.xlsx'), 'mine');
    await expect(writeForms(choices, folder)).rejects.toThrow(FormsFolderError);
    await expect(writeForms(choices, join(folder, 'trial.xlsx'))).rejects.toThrow(/it is a file/);
    await expect(writeForms(choices, join(folder, 'trial.xlsx', 'below'))).rejects.toThrow(FormsFolderError);
    expect([readdirSync(folder), await readFile(join(folder, 'trial.xlsx'), 'utf8')]).toEqual([['trial.xlsx'], 'mine']);
    expect(readdirSync(scratch).filter((name) => name.startsWith('.'))).toEqual([]);
  });
});

describe('what is typed', () => {
  it('wallsIn(text) takes whole numbers from 2 to 500', () => {
    expect(['2', '500', ' 12 '].map((text) => wallsIn(text).kind)).toEqual(Array(3).fill('understood'));
    expect(['1', '501', '2.5', '', '1e2'].map((text) => wallsIn(text).kind)).toEqual(Array(5).fill('not-understood'));
  });

  it('heightsIn(text) takes up to 20 heights in any order, each once', () => {
    expect(heightsIn('600; 200, 600')).toEqual({ kind: 'understood', value: [200, 600] });
    const list = (length: number) => Array.from({ length }, (_, index) => 100 + index).join(' ');
    expect([list(20), list(21), '', '60 cm', '-5'].map((text) => heightsIn(text).kind)).toEqual([
      'understood',
      ...Array(4).fill('not-understood'),
    ]);
  });

  it('wallNames(walls) gives each wall a name of the same length', () => {
    expect(new Set(wallNames(120).map((name) => name.length))).toEqual(new Set([4]));
    expect(new Set(wallNames(120)).size).toBe(120);
  });
});

it.each(tableNames)('every example of a word in %s is one of its words', (table) => {
  for (const { words, example } of notesOf(table).values()) if (words !== undefined) expect(words).toContain(example);
});
