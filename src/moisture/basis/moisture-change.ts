import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import type { MoistureContent } from './moisture-content.js';

/** A change said both ways: the relative one alone flatters walls that were nearly dry. */
export interface MoistureChange {
  readonly basis: MoistureContent['basis'];
  /** After less before, in percentage points of the basis. */
  readonly difference_pp: number;
  /** The difference in percent of before. Absent where before was not above zero. */
  readonly relative_pct?: number;
}

/**
 * The change between two moisture contents of one basis. Two bases do not compile, and are refused where types were
 * lost; so are degrees of saturation with different definitions or amounts of saturation.
 *
 * @throws MoistureError `bases-differ`, `not-finite`
 * @example
 * const [after, before] = [2.9, 14.48].map((value) => ({ basis: 'dry', unit: '% by mass', value }));
 * moistureChange(after, before).difference_pp // -11.58
 */
export function moistureChange<Content extends MoistureContent>(
  after: Content,
  before: Extract<MoistureContent, { readonly basis: Content['basis'] }>,
): MoistureChange {
  checkFinite('moistureChange', 'moisture content after', after.value);
  checkFinite('moistureChange', 'moisture content before', before.value);
  checkSameBasis(after, before);
  const difference_pp = after.value - before.value;
  const relative = before.value > 0 ? { relative_pct: (100 * difference_pp) / before.value } : {};
  return { basis: after.basis, difference_pp, ...relative };
}

function checkSameBasis(after: MoistureContent, before: MoistureContent): void {
  const [one, other] = [describe(after), describe(before)];
  if (one !== other)
    throw new MoistureError(
      'moistureChange',
      'bases-differ',
      `needs two moisture contents of one basis, got ${one} and ${other}; convert one with toDryBasis`,
    );
}

function describe(content: MoistureContent): string {
  if (content.basis !== 'saturation') return content.basis;
  const { kind, saturated_pct } = content.saturation;
  return `${content.basis} (${kind}, ${saturated_pct} %)`;
}
