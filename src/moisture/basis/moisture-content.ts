/*
 * Moisture contents of different bases are different types, distinguished by `basis`, so that they cannot be averaged or
 * subtracted across bases unnoticed. Values and uncertainties are in the unit beside them.
 */

interface Amount {
  readonly value: number;
  /** Absent where nothing is known of it. */
  readonly standardUncertainty?: number;
}

/** Water over dry material, by mass: u = (m_w − m_d)/m_d. What EN ISO 12570 and EN 16682 mean (from memory). */
export interface DryBasisMoisture extends Amount {
  readonly basis: 'dry';
  readonly unit: '% by mass';
}

/** Water over wet material, by mass: w = (m_w − m_d)/m_w. What carbide meters show (AASHTO T 217, excerpts seen). */
export interface WetBasisMoisture extends Amount {
  readonly basis: 'wet';
  readonly unit: '% by wet mass';
}

/** Water over the bulk of the material, by volume. */
export interface VolumeMoisture extends Amount {
  readonly basis: 'volume';
  readonly unit: '% by volume';
  readonly densities: Densities;
}

/** Water over the water that the material holds when saturated. */
export interface SaturationMoisture extends Amount {
  readonly basis: 'saturation';
  readonly unit: '% of saturation';
  readonly saturation: Saturation;
}

export type MoistureContent = DryBasisMoisture | WetBasisMoisture | VolumeMoisture | SaturationMoisture;

export interface Densities {
  /** Dry mass over bulk volume. */
  readonly dryDensity_kg_m3: number;
  /** Standard uncertainty of the dry density; zero unless given. */
  readonly dryDensityUncertainty_kg_m3?: number;
  /** 998.2 kg/m³, water at 20 °C, unless given. */
  readonly waterDensity_kg_m3?: number;
  /** Volume that water can reach. Where given, more water than fits is refused. */
  readonly openPorosity_pct?: number;
}

/**
 * The moisture content that counts as saturated, and how it was found. The kinds differ (capillary saturation leaves
 * air behind), so degrees of saturation of different kinds are not comparable.
 */
export interface Saturation {
  /** `stated` where a folder gives the content and not how it was found. */
  readonly kind: 'vacuum' | 'boiling' | 'capillary' | 'porosity' | 'stated';
  /** On the dry basis, % by mass. */
  readonly saturated_pct: number;
  /** Standard uncertainty of it; zero unless given. */
  readonly saturatedUncertainty_pct?: number;
}
