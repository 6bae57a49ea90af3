import { describe, expect, it } from 'vitest';
import { boxes, layersOf, levels, symbols, texts, upright } from '../../src/charts/marks.js';

interface Layer {
  readonly data: { readonly values: readonly Record<string, unknown>[] };
  readonly mark: Record<string, unknown>;
}

const drawn = (parts: Parameters<typeof layersOf>[0]) => layersOf(parts) as unknown as readonly Layer[];
const dot = { shape: 'circle', fill: '#000000' };

describe('layersOf(parts)', () => {
  it('joins marks of one kind that follow each other, and no others', () => {
    const layers = drawn([
      upright(1, 0, 9),
      levels([{ x: 0, x2: 9, y: 2 }]),
      boxes([], { fill: '#fff' }),
      upright(3, 0, 9),
    ]);
    expect(layers.map(({ mark, data }) => [mark.type, data.values.length])).toEqual([['rule', 3]]);
    const split = drawn([upright(1, 0, 9), symbols([{ x: 1, y: 1 }], dot), upright(3, 0, 9)]);
    expect(split.map(({ mark }) => mark.type)).toEqual(['rule', 'point', 'rule']);
  });

  it('keeps rows in the order in which they were given, with what else they hold', () => {
    const rows = drawn([levels([{ x: 0, x2: 9, y: 2, lower: -1 } as never]), upright(3, 0, 9)]).flatMap(
      ({ data }) => data.values,
    );
    expect(rows).toEqual([
      { x: 0, x2: 9, y: 2, y2: 2, lower: -1 },
      { x: 3, x2: 3, y: 0, y2: 9 },
    ]);
  });

  it('writes what all rows look like into the mark, and into the rows in what they differ', () => {
    const [layer] = drawn([upright(1, 0, 9, { dash: [2, 3] }), upright(3, 0, 9)]);
    expect(layer?.mark).toMatchObject({ strokeWidth: 1.25, strokeDash: { expr: 'datum.strokeDash' } });
    expect(layer?.data.values.map(({ strokeDash, strokeWidth }) => [strokeDash, strokeWidth])).toEqual([
      [[2, 3], undefined],
      [[], undefined],
    ]);
  });

  it('lets a row have a size of its own, and takes the common one for the others', () => {
    const [layer] = drawn([
      symbols(
        [
          { x: 0, y: 0, size: 9 },
          { x: 1, y: 1 },
        ],
        { ...dot, size: 4 },
      ),
    ]);
    expect(layer?.data.values.map(({ size }) => size)).toEqual([9, 4]);
  });

  it('puts words above everything else, in one layer', () => {
    const word = (text: string) => texts([{ text, x: 0, y: 0 }], { bold: text === 'b' });
    const layers = drawn([word('a'), upright(1, 0, 9), word('b')]);
    expect(layers.map(({ mark }) => mark.type)).toEqual(['rule', 'text']);
    expect(layers[1]?.data.values.map(({ text, fontWeight }) => [text, fontWeight])).toEqual([
      ['a', 400],
      ['b', 600],
    ]);
  });

  it('leaves a layer with scales of its own where it is', () => {
    const own = { mark: { type: 'line' } };
    expect(layersOf([upright(1, 0, 9), own, upright(3, 0, 9)]).indexOf(own)).toBe(1);
  });
});
