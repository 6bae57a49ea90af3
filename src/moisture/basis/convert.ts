import { checkFinite, checkNotNegative, checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import type {
  Densities,
  DryBasisMoisture,
  MoistureContent,
  Saturation,
  SaturationMoisture,
  VolumeMoisture,
  WetBasisMoisture,
} from './moisture-content.js';

/** kg/m³ at 20 °C (from memory). */
const densityOfWater = 998.2;

/**
 * Moisture content on the dry basis from any other: u = w/(1 − w), u = ψ·ρ_w/ρ_d, or u = S·u_max. A standard uncertainty
 * goes along to first order, with that of the density or of the saturation taken as independent.
 *
 * @throws MoistureError `not-finite`; `out-of-range` for a wet basis of 100 % or more, or what cannot be
 * @example toDryBasis({ basis: 'wet', unit: '% by wet mass', value: 8.6516 }).value // 9.471
 */
export function toDryBasis(content: MoistureContent): DryBasisMoisture {
  checkContent('toDryBasis', content);
  switch (content.basis) {
    case 'dry':
      return dry(content.value, content.standardUncertainty);
    case 'wet': {
      const kept = 1 - content.value / 100;
      if (kept <= 0)
        throw new MoistureError('toDryBasis', 'out-of-range', `needs a wet basis below 100 %, got ${content.value} %`);
      return dry(content.value / kept, scaled(content.standardUncertainty, 1 / kept ** 2));
    }
    case 'volume': {
      const ratio = densityRatio('toDryBasis', content.densities);
      return fromProduct(content, 1 / ratio, relativeOfDensity(content.densities));
    }
    case 'saturation': {
      checkSaturation('toDryBasis', content.saturation);
      return fromProduct(content, content.saturation.saturated_pct / 100, relativeOfSaturation(content.saturation));
    }
  }
}

/**
 * Wet basis from dry basis: w = u/(1 + u).
 *
 * @example toWetBasis({ basis: 'dry', unit: '% by mass', value: 9.471 }).value // 8.6516
 */
export function toWetBasis(content: DryBasisMoisture): WetBasisMoisture {
  checkContent('toWetBasis', content);
  const grown = 1 + content.value / 100;
  if (grown <= 0)
    throw new MoistureError('toWetBasis', 'out-of-range', `needs a dry basis above -100 %, got ${content.value} %`);
  return {
    basis: 'wet',
    unit: '% by wet mass',
    value: content.value / grown,
    ...asUncertainty(scaled(content.standardUncertainty, 1 / grown ** 2)),
  };
}

/**
 * Percent by volume from dry basis: ψ = u·ρ_d/ρ_w.
 *
 * @throws MoistureError `out-of-range` also where that is more water than the open porosity holds
 * @example toVolumeBasis({ basis: 'dry', unit: '% by mass', value: 9.471 }, { dryDensity_kg_m3: 1750 }).value // 16.604
 */
export function toVolumeBasis(content: DryBasisMoisture, densities: Densities): VolumeMoisture {
  checkContent('toVolumeBasis', content);
  const { value, standardUncertainty } = fromProduct(
    content,
    densityRatio('toVolumeBasis', densities),
    relativeOfDensity(densities),
  );
  const room = densities.openPorosity_pct;
  if (room !== undefined && value > room)
    throw new MoistureError(
      'toVolumeBasis',
      'out-of-range',
      `needs no more water than the open porosity of ${room} % holds, got ${value} % by volume; check density and unit`,
    );
  return { basis: 'volume', unit: '% by volume', value, ...asUncertainty(standardUncertainty), densities };
}

/**
 * Degree of saturation from dry basis: S = u/u_max, in percent, with the definition of u_max beside it.
 *
 * @example toDegreeOfSaturation({ basis: 'dry', unit: '% by mass', value: 9.471 }, { kind: 'vacuum', saturated_pct: 16 }).value // 59.19
 */
export function toDegreeOfSaturation(content: DryBasisMoisture, saturation: Saturation): SaturationMoisture {
  checkContent('toDegreeOfSaturation', content);
  checkSaturation('toDegreeOfSaturation', saturation);
  const { value, standardUncertainty } = fromProduct(
    content,
    100 / saturation.saturated_pct,
    relativeOfSaturation(saturation),
  );
  return { basis: 'saturation', unit: '% of saturation', value, ...asUncertainty(standardUncertainty), saturation };
}

/**
 * The most that a material can hold with all its open pores full: u_max = φ·ρ_w/ρ_d.
 *
 * @example saturationOfPorosity({ dryDensity_kg_m3: 1750 }, 30).saturated_pct // 17.112
 */
export function saturationOfPorosity(densities: Densities, openPorosity_pct: number): Saturation {
  checkPositive('saturationOfPorosity', 'open porosity', openPorosity_pct, '%');
  if (openPorosity_pct > 100)
    throw new MoistureError('saturationOfPorosity', 'out-of-range', `needs at most 100 %, got ${openPorosity_pct} %`);
  return { kind: 'porosity', saturated_pct: openPorosity_pct / densityRatio('saturationOfPorosity', densities) };
}

function dry(value: number, standardUncertainty: number | undefined): DryBasisMoisture {
  return { basis: 'dry', unit: '% by mass', value, ...asUncertainty(standardUncertainty) };
}

/** A value times a factor that is itself known only to a relative standard uncertainty. */
function fromProduct(content: MoistureContent, factor: number, relativeUncertainty: number): DryBasisMoisture {
  const value = content.value * factor;
  const { standardUncertainty } = content;
  if (standardUncertainty === undefined) return dry(value, undefined);
  return dry(value, Math.hypot(standardUncertainty * factor, value * relativeUncertainty));
}

function scaled(standardUncertainty: number | undefined, factor: number): number | undefined {
  return standardUncertainty === undefined ? undefined : standardUncertainty * factor;
}

function asUncertainty(standardUncertainty: number | undefined): { readonly standardUncertainty?: number } {
  return standardUncertainty === undefined ? {} : { standardUncertainty };
}

function densityRatio(where: string, densities: Densities): number {
  const { dryDensity_kg_m3, waterDensity_kg_m3 = densityOfWater } = densities;
  checkPositive(where, 'dry density', dryDensity_kg_m3, 'kg/m³');
  checkPositive(where, 'density of water', waterDensity_kg_m3, 'kg/m³');
  checkNotNegative(where, 'uncertainty of the density', densities.dryDensityUncertainty_kg_m3 ?? 0, 'kg/m³');
  return dryDensity_kg_m3 / waterDensity_kg_m3;
}

function relativeOfDensity({ dryDensity_kg_m3, dryDensityUncertainty_kg_m3 = 0 }: Densities): number {
  return dryDensityUncertainty_kg_m3 / dryDensity_kg_m3;
}

function relativeOfSaturation({ saturated_pct, saturatedUncertainty_pct = 0 }: Saturation): number {
  return saturatedUncertainty_pct / saturated_pct;
}

function checkSaturation(where: string, saturation: Saturation): void {
  checkPositive(where, 'moisture content at saturation', saturation.saturated_pct, '%');
  checkNotNegative(where, 'uncertainty of the saturation', saturation.saturatedUncertainty_pct ?? 0, '%');
}

function checkContent(where: string, content: MoistureContent): void {
  checkFinite(where, 'moisture content', content.value);
  checkNotNegative(where, 'standard uncertainty', content.standardUncertainty ?? 0, '%');
}
