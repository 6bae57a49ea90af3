import { from } from 'arquero';
import { describe, expect, it } from 'vitest';
import { type Row, tableHtml, tableText } from '../../src/index.js';

const rows = [
  { wall: 'W01', change: -1.4962, walls: 12, why_not: null },
  { wall: 'W<2>', change: 12.25, walls: 3, why_not: 'a & b' },
];

describe('tableText(rows)', () => {
  it('sets numbers to the right at the decimals that are known, words to the left, and a dash for nothing', () => {
    expect(tableText(rows, { decimals: { change: 1 } })).toBe(
      ['wall  change  walls  why_not', 'W01     −1.5     12  –', 'W<2>    12.3      3  a & b', ''].join('\n'),
    );
  });

  it('rounds each row to what is known of it', () => {
    const decimals = { days: ({ width }: Row) => (Number(width) > 10 ? 0 : 1) };
    expect(
      tableText(
        [
          { days: 80.46, width: 50 },
          { days: 3.26, width: 2 },
        ],
        { decimals },
      ),
    ).toBe('days  width\n  80     50\n 3.3      2\n');
  });

  it('shows three digits where nobody says how many are known, and whole numbers whole', () => {
    expect(tableText([{ a: 0.123456, b: 10000 }])).toBe('    a       b\n0.123  10\u202f000\n');
  });

  it('writes a power of ten below a thousandth, where digits would be noughts', () => {
    expect(tableText([{ p: 0.00001234 }, { p: 0.001 }])).toBe('          p\n1.23 × 10⁻⁵\n     0.0010\n');
  });

  it('says the same of a table of arquero', () => {
    expect(tableText(from(rows))).toBe(tableText(rows));
  });

  it('sets nothing for no rows', () => {
    expect(tableText([])).toBe('\n');
  });
});

describe('tableHtml(rows)', () => {
  it('is one table with a head, its text escaped, its numbers rounded and set to the right', () => {
    const html = tableHtml(rows, { decimals: { change: 1 } });
    expect(html.match(/<tr>/g)).toHaveLength(3);
    expect(html).toContain('<th style="text-align:right">change</th>');
    expect(html).toContain('<td style="text-align:right">−1.5</td>');
    expect(html).toContain('<td style="text-align:left">W&lt;2&gt;</td>');
    expect(html).toContain('<td style="text-align:left">a &amp; b</td>');
    expect(html).not.toContain('<2>');
  });
});
