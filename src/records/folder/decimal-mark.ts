export type DecimalMark = 'point' | 'comma';

const withPoint = /^<?\s*[+-]?\d*\.\d+(?:[eE][+-]?\d+)?$/;
const withComma = /^<?\s*[+-]?\d*,\d+(?:[eE][+-]?\d+)?$/;
/** `1,200` or `12,345`: one thousand two hundred, or one and a fifth. */
const likeThousands = /^<?\s*[+-]?[1-9]\d{0,2},\d{3}$/;

/**
 * Which decimal mark a table is written with, from all its numbers taken together; nothing where no number has a fraction.
 *
 * `1,200` alone does not tell whether the comma is decimal or groups thousands. It counts as decimal where the cells are
 * separated by semicolons (that is what semicolons are for), or where another number of the table can only be decimal,
 * such as `0,200` or `1,2`. Where both marks occur the more frequent one is taken, the point if neither is; numbers with the
 * other mark are then refused one by one.
 */
export function decimalMark(
  numbers: Iterable<string>,
  separator: 'comma' | 'semicolon' | undefined,
): DecimalMark | undefined {
  let points = 0;
  let commas = 0;
  let certain = separator === 'semicolon';
  for (const text of numbers) {
    if (withPoint.test(text)) points++;
    else if (withComma.test(text)) {
      commas++;
      if (!certain) certain = !likeThousands.test(text);
    }
  }
  if (commas > points && certain) return 'comma';
  return points > 0 ? 'point' : undefined;
}
