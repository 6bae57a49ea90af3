import type { Side } from '../../analysis/index.js';
import { saltSchemes } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { isStatisticsError, welch } from '../../statistics/index.js';
import { type SaltIon, saltIons } from '../../trial/index.js';
import { type ContentRange, meanRange } from './content-range.js';
import type { IonOfWall } from './salts-of-walls.js';

interface SideMean extends ContentRange {
  readonly walls: number;
}

/** One ion before the treatment, treated walls beside untreated ones. */
export interface IonBefore {
  readonly ion: SaltIon;
  readonly treated: SideMean;
  readonly untreated: SideMean;
  /** Larger mean over smaller, as near to one as values below detection leave open; absent where the smaller is none. */
  readonly ratio?: number;
  /** The larger mean at least, as a multiple of the content from which the strictest scheme no longer calls it low. */
  readonly timesLow: number;
}

/** How one ion changed in treated walls beside untreated ones, from places sampled in both windows. */
export interface IonChange {
  readonly ion: SaltIon;
  readonly treated: SideMean;
  readonly untreated: SideMean;
  /** Treated less untreated, percent by mass, as near to nothing as values below detection leave open: zero where that may be all. */
  readonly apart_pct: number;
  /** Its size as a share of the mean over these walls before, at most; absent where they held none. */
  readonly share?: number;
  /** Welch’s; where values lie below detection, the largest of those from either end of their ranges. Absent where there is none. */
  readonly pValue?: number;
}

/** Both sides must have been sampled. */
export function saltsBefore(walls: readonly IonOfWall[]): readonly IonBefore[] {
  return saltIons.flatMap((ion): IonBefore[] => {
    const [treated, untreated] = sidesOf(walls, ion, 'before');
    if (treated === undefined || untreated === undefined) return [];
    const larger = treated.lower_pct >= untreated.lower_pct ? treated : untreated;
    const smaller = larger === treated ? untreated : treated;
    const ratio = ratioOf(larger.lower_pct, smaller.upper_pct);
    return [
      {
        ...{ ion, treated, untreated },
        ...present({ ratio }),
        timesLow: larger.lower_pct / strictestLow_pct(ion),
      },
    ];
  });
}

function ratioOf(larger_pct: number, smaller_pct: number): number | undefined {
  if (larger_pct <= smaller_pct) return 1;
  return smaller_pct > 0 ? larger_pct / smaller_pct : undefined;
}

function strictestLow_pct(ion: SaltIon): number {
  return Math.min(...Object.values(saltSchemes).map(({ limits_pct }) => limits_pct[ion][0]));
}

/** Both sides must have places that were sampled in both windows. */
export function saltChanges(walls: readonly IonOfWall[]): readonly IonChange[] {
  return saltIons.flatMap((ion): IonChange[] => {
    const [treated, untreated] = sidesOf(walls, ion, 'change');
    if (treated === undefined || untreated === undefined) return [];
    const own = walls.filter((wall) => wall.ion === ion && wall.change !== undefined);
    const pValue = largestP(own);
    const apart_pct = leastApart(treated, untreated);
    const { upper_pct: before_pct } = meanRange(own.flatMap(({ before }) => before ?? []));
    return [
      {
        ...{ ion, treated, untreated, apart_pct },
        ...(before_pct > 0 ? { share: Math.abs(apart_pct) / before_pct } : {}),
        ...present({ pValue }),
      },
    ];
  });
}

function sidesOf(walls: readonly IonOfWall[], ion: SaltIon, what: 'before' | 'change') {
  return (['treated', 'untreated'] as const).map((side): SideMean | undefined => {
    const ranges = walls.filter((wall) => wall.ion === ion && wall.side === side).flatMap((wall) => wall[what] ?? []);
    return ranges.length === 0 ? undefined : { walls: ranges.length, ...meanRange(ranges) };
  });
}

function leastApart(treated: ContentRange, untreated: ContentRange): number {
  const [lower, upper] = [treated.lower_pct - untreated.upper_pct, treated.upper_pct - untreated.lower_pct];
  if (lower > 0) return lower;
  return Math.min(upper, 0);
}

/** A p-value that only some of the ends give is none. */
function largestP(walls: readonly IonOfWall[]): number | undefined {
  const ends = ['lower_pct', 'upper_pct'] as const;
  const values = (side: Side, end: (typeof ends)[number]) =>
    walls.flatMap((wall) => (wall.side === side && wall.change !== undefined ? [wall.change[end]] : []));
  const found = ends.flatMap((treated) =>
    ends.map((untreated) => pOf(values('treated', treated), values('untreated', untreated))),
  );
  const known = found.flatMap((each) => each ?? []);
  return known.length < found.length ? undefined : Math.max(...known);
}

function pOf(treated: readonly number[], untreated: readonly number[]): number | undefined {
  return unlessRefused(isStatisticsError, () => welch(treated, untreated).pValue);
}
