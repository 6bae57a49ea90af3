import type { Reason } from '../../analysis/index.js';

export type SensorAtHeight = {
  readonly station: string;
  readonly height_mm: number;
} & (
  | { readonly kind: 'arrived'; readonly time_d: number; readonly lower_d: number; readonly upper_d: number }
  | { readonly kind: 'not-arrived'; readonly reason: Reason }
);
