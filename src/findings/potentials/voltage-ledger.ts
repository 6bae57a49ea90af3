export interface FromTo {
  readonly low: number;
  readonly high: number;
}

/** What moves water through the foot of a wall; fields in V/m, as the plan claims one or as examples to set beside it. */
export type LedgerDriver =
  | { readonly kind: 'evaporation' }
  | {
      readonly kind: 'field';
      readonly field_v_per_m: number;
      readonly of: 'weak-example' | 'claim' | 'strong-example';
    };

export interface LedgerEntry {
  readonly driver: LedgerDriver;
  readonly flux_mm_per_day: FromTo;
  /** Of what evaporation moves; 1 for evaporation itself. */
  readonly share: FromTo;
}

const secondsADay = 86_400;
/** Of water at 25 °C (from memory). */
const permittivity_F_per_m = 78.4 * 8.854e-12;
const viscosity_Pa_s = 0.89e-3;
/**
 * Size of the zeta potential, from none (lime, calcium and salt take it away: no flow in kaolinite with 80 % calcium carbonate and more, less flow with
 * salt: Eslami and others 2024, J. Cult. Herit., pp. 130-135, abstract seen) to
 * what is told of clean brick in dilute water (from memory, weak).
 */
export const zeta_mV: FromTo = { low: 0, high: 40 };
/** Porosity times tortuosity: an assumption, no source. */
export const openShare = 0.15;
/** Of all faces together, a day: what is told of walls, from a cool cellar to a summer’s day (from memory, weak). */
export const evaporation_mm_per_day: FromTo = { low: 0.1, high: 1.5 };
/** A wall that draws water: sorptivity in mm/min^½, water content by volume, thickness; an example, textbook values (from memory). */
const wall = { sorptivity: 1, content: 0.2, thickness_mm: 225 };
/** Fields to set beside the claimed one, V/m: examples, no measurements of walls. */
const exampleFields_v_per_m = { weak: 0.1, strong: 100 };

/**
 * Water moved by electro-osmosis (Helmholtz and Smoluchowski: permittivity × zeta × field / viscosity, times the open share)
 * beside the water that evaporation draws through the foot of a wall (sorptivity S = 1 mm/min^½, water content 0.2, 225 mm thick: sharp front,
 * S √(e/(2 b θ)), Hall and Hoff 2007), in mm of water a day through the wall’s cross-section. Zeta potential and evaporation are not known of any one
 * wall, so that all is from the least to the most: zeta from 0 to 40 mV in size, evaporation from 0.1 to 1.5 mm a day.
 *
 * @param claimed_v_per_m the field that the treatment is said to make, where the plan states one
 * @example plausibilityLedger(5).map(({ share }) => share.high) // [1, 0.03196, 1.598, 31.96]
 */
export function plausibilityLedger(claimed_v_per_m?: number): readonly LedgerEntry[] {
  const evaporated = { low: drawnBy(evaporation_mm_per_day.low), high: drawnBy(evaporation_mm_per_day.high) };
  const osmosis = (field_v_per_m: number, of: 'weak-example' | 'claim' | 'strong-example'): LedgerEntry => {
    const flux = { low: movedBy(field_v_per_m, zeta_mV.low), high: movedBy(field_v_per_m, zeta_mV.high) };
    const share = { low: flux.low / evaporated.high, high: flux.high / evaporated.low };
    return { driver: { kind: 'field', field_v_per_m, of }, flux_mm_per_day: flux, share };
  };
  const { weak, strong } = exampleFields_v_per_m;
  return [
    { driver: { kind: 'evaporation' }, flux_mm_per_day: evaporated, share: { low: 1, high: 1 } },
    osmosis(weak, 'weak-example'),
    ...(claimed_v_per_m === undefined ? [] : [osmosis(claimed_v_per_m, 'claim')]),
    osmosis(strong, 'strong-example'),
  ];
}

/** mm of water a day through the foot of the wall: e h/b at the steady height h = S √(b/(2 e θ)). */
function drawnBy(evaporated_mm_per_day: number): number {
  const { sorptivity, content, thickness_mm } = wall;
  const minutesADay = secondsADay / 60;
  const evaporation_mm_per_min = evaporated_mm_per_day / minutesADay;
  const height_mm = sorptivity * Math.sqrt(thickness_mm / (2 * evaporation_mm_per_min * content));
  return (evaporated_mm_per_day * height_mm) / thickness_mm;
}

function movedBy(field_v_per_m: number, zeta: number): number {
  const metres_per_s = (permittivity_F_per_m * (zeta / 1000) * field_v_per_m) / viscosity_Pa_s;
  return metres_per_s * 1000 * secondsADay * openShare;
}
