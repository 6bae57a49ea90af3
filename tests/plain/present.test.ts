import { describe, expect, expectTypeOf, it } from 'vitest';
import { present } from '../../src/plain/present.js';

describe('present(fields)', () => {
  it('keeps what has a value, in order, be it 0, empty, false or null', () => {
    const fields = { b: 0, a: '', gone: undefined, d: false, c: null };
    expect(JSON.stringify(present(fields))).toBe('{"b":0,"a":"","d":false,"c":null}');
    expect(Object.keys(present(fields))).not.toContain('gone');
  });

  it('types a field that may be undefined as one that may be absent, and never as undefined', () => {
    const fields: { sure: number; maybe: string | undefined } = { sure: 1, maybe: undefined };
    const found: { readonly sure: number; readonly maybe?: string } = present(fields);
    expectTypeOf(present(fields).sure).toEqualTypeOf<number>();
    expect(found).toEqual({ sure: 1 });
  });
});
