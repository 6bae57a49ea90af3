import type { Recorded, RowOrigin } from './recorded.js';

export const saltIons = ['chloride', 'nitrate', 'sulfate'] as const;

export type SaltIon = (typeof saltIons)[number];

/** Published schemes by which salt contents are classed; what they say stands in `moisture/hygroscopic/salt-load.ts`. */
export const saltSchemeNames = ['wta-2-6-99', 'wta-3-13-01', 'oenorm-b-3355-1'] as const;

export type SaltSchemeName = (typeof saltSchemeNames)[number];

/** Percent by mass of the dry material, by ion: what a laboratory found in one sample. */
export type SaltContents = Readonly<Record<SaltIon, Recorded>>;

/** One sample of a wall that was analysed for salts. */
export interface SaltSample {
  /** ISO date (or date and time) of the sampling; the first ten characters are the day. */
  readonly date: string;
  readonly wall: string;
  readonly height_mm?: number;
  readonly depth_mm?: number;
  readonly contents_pct: SaltContents;
  /** By which the trial classes the contents. Absent: they have no class. */
  readonly scheme?: SaltSchemeName;
  readonly origin: RowOrigin;
}
