import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type FrontFile, firstOfRow, frontTable } from './front-trials.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');
const file: FrontFile = JSON.parse(read('front.json'));
const rowsOf = (wall: string) => file.rows.filter((row) => row.wall === wall);

describe('the committed counts of damp fronts', () => {
  it('have every interval hold a front half way up in 93 of 100 walls at least that were given one', () => {
    const rows = rowsOf('front half way up');
    expect(rows).toHaveLength(6);
    for (const { layout, scatter_pp, held, given } of rows) {
      expect([layout, scatter_pp, held / given > 0.93]).toEqual([layout, scatter_pp, true]);
      expect([layout, scatter_pp, given / file.profiles > 0.5]).toEqual([layout, scatter_pp, true]);
    }
  });

  it('have a front in level walls in 5 of 100 at most', () => {
    for (const { given } of rowsOf('level')) expect(given / file.profiles).toBeLessThan(0.05);
  });

  it('account for every profile', () => {
    for (const { given, noFall, notGiven, held, open } of file.rows) {
      expect(given + noFall + notGiven).toBe(file.profiles);
      expect(Math.max(held, open)).toBeLessThanOrEqual(given);
    }
  });

  it('begin as a run made now does, where that is quick', () => {
    const quick = file.rows.filter(
      ({ layout, wall }) => layout.startsWith('five heights, a place') || wall === 'level',
    );
    expect(quick).toHaveLength(18);
    for (const row of quick) expect([row.layout, row.wall, firstOfRow(row)]).toEqual([row.layout, row.wall, row.first]);
  });

  it('stand in the table as in the numbers', () => {
    expect(read('front.md')).toBe(frontTable(file));
  });
});
