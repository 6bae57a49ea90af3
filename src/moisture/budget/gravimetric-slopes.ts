import type { CoreMasses } from '../core-masses.js';

/** Moisture on the dry basis and its sensitivity coefficients, in percentage points by gram (for drying: by percent). */
export interface GravimetricSlopes {
  readonly moisture_pct: number;
  readonly wet: number;
  readonly dry: number;
  /** Zero for net masses. */
  readonly container: number;
  readonly drying: number;
}

/** With m_w and m_d the net masses: 1/m_d, −m_w/m_d², u/m_d and 1 + u. */
export function gravimetricSlopes({ container_g, wet_g, dry_g }: CoreMasses): GravimetricSlopes {
  const netDry_g = dry_g - container_g;
  const ratio = (wet_g - container_g) / netDry_g;
  return {
    moisture_pct: 100 * (ratio - 1),
    wet: 100 / netDry_g,
    dry: (-100 * ratio) / netDry_g,
    container: container_g === 0 ? 0 : (100 * (ratio - 1)) / netDry_g,
    drying: ratio,
  };
}
