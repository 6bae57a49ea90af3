import fc from 'fast-check';
import { expect, it } from 'vitest';
import { plainName } from '../../../src/records/folder/table-naming.js';
import { anyCharacter } from '../../helpers/any-character.js';

it.each([
  ['height_mm', 'height_mm'],
  [' Height (mm) ', 'height_mm'],
  ['WET / G', 'wet_g'],
  ['rh %', 'rh_pct'],
  ['ＤＲＹ＿ｇ', 'dry_g'],
  ['a__b_', 'a_b'],
  ['_', ''],
  ['2nd', '2nd'],
])('plainName(%s) is %s', (heading, plain) => expect(plainName(heading)).toBe(plain));

it('plainName(heading) has letters and digits between single strokes, and is its own plain name', () => {
  const heading = fc.oneof(
    fc.string({ unit: anyCharacter, maxLength: 8 }),
    fc.string({ unit: fc.constantFrom('a', 'B', '1', '_', ' ', '%', '(', 'é', '١'), maxLength: 8 }),
  );
  fc.assert(
    fc.property(heading, (text) => {
      const plain = plainName(text);
      expect(plain).toMatch(/^(?:[\p{L}\p{N}]+(?:_[\p{L}\p{N}]+)*)?$/u);
      expect(plainName(plain)).toBe(plain);
      // The way round for names that are plain already leads to the same.
      expect(plainName(`${text} `)).toBe(plain);
    }),
  );
});
