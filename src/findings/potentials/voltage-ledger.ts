/** A source of voltage in a wall that is neither moisture nor treatment. */
export interface CompetingVoltage {
  readonly source: string;
  readonly size: string;
  /** Where the number comes from. */
  readonly mark: string;
}

/** No range of potentials that a wall ought to have is given: no reliable published one was found. */
export const competingVoltages: readonly CompetingVoltage[] = [
  {
    source: 'Water moving through pores (what a voltage is meant to show)',
    size: '0 to 0.31 mV for each kPa in pore water of 0.1 S/m; ten times that in purer water, a tenth in salty',
    mark: 'computed (Helmholtz and Smoluchowski, zeta 0 to 40 mV in size: from memory, weak)',
  },
  {
    source: 'Salts: a difference of concentration',
    size: '12 mV for each tenfold difference of sodium chloride at 25 °C',
    mark: 'computed from the transport number 0.396; in a full-scale brick model the voltage followed salts rather than moisture (Franzoni and Bandini 2012, abstract)',
  },
  {
    source: 'Salts: a change of conductivity',
    size: 'a tenfold change moves a streaming voltage tenfold, with no change of moisture',
    mark: 'computed (Helmholtz and Smoluchowski)',
  },
  { source: 'Unlike or corroding electrodes', size: 'tens to hundreds of mV', mark: 'from memory' },
  {
    source: 'Another reference electrode, or a warmer one',
    size: '+197 to +316 mV against hydrogen, by type; about 0.9 mV for each °C (copper sulphate)',
    mark: 'types from memory; temperature after ASTM C876 (0.0005 V for each °F, excerpt)',
  },
  {
    source: 'Iron in the wall',
    size: 'some 150 mV between sound and corroding (above −200 mV, below −350 mV against copper sulphate)',
    mark: 'limits of ASTM C876 for steel in concrete, as quoted by others',
  },
  {
    source: 'Mains',
    size: 'millivolts to volts, alternating; what of it a direct voltage shows depends on the meter',
    mark: 'common practice, no source',
  },
  {
    source: 'Earth currents (railways, protected pipes)',
    size: 'millivolts for each metre of ground near their source; natural ones a thousandth of that',
    mark: 'from memory',
  },
];

export interface FromTo {
  readonly low: number;
  readonly high: number;
}

export interface LedgerEntry {
  readonly driver: string;
  readonly flux_mm_per_day: FromTo;
  /** Of what evaporation moves; 1 for evaporation itself. */
  readonly share: FromTo;
  readonly how: string;
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
const zeta_mV: FromTo = { low: 0, high: 40 };
/** Porosity times tortuosity: an assumption, no source. */
const openShare = 0.15;
/** Of all faces together, a day: what is told of walls, from a cool cellar to a summer’s day (from memory, weak). */
const evaporation_mm_per_day: FromTo = { low: 0.1, high: 1.5 };
/** A wall that draws water: sorptivity in mm/min^½, water content by volume, thickness; an example, textbook values (from memory). */
const wall = { sorptivity: 1, content: 0.2, thickness_mm: 225 };
/** Fields to set beside the claimed one, V/m: examples, no measurements of walls. */
const exampleFields_V_per_m = [0.1, 100];

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
  const osmosis = (driver: string, field_V_per_m: number, how: string): LedgerEntry => {
    const flux = { low: movedBy(field_V_per_m, zeta_mV.low), high: movedBy(field_V_per_m, zeta_mV.high) };
    const share = { low: flux.low / evaporated.high, high: flux.high / evaporated.low };
    return { driver, flux_mm_per_day: flux, share, how };
  };
  const claimed = claimed_v_per_m === undefined ? [] : [claimed_v_per_m];
  const [weak = 0, strong = 0] = exampleFields_V_per_m;
  return [
    {
      driver: 'Evaporation from the wall',
      flux_mm_per_day: evaporated,
      share: { low: 1, high: 1 },
      how: `computed: steady sharp front, textbook values; evaporation ${rangeInWords(evaporation_mm_per_day)} mm a day (from memory, weak)`,
    },
    osmosis(
      `A field of ${weak} V/m, an example`,
      weak,
      `computed: zeta ${rangeInWords(zeta_mV)} mV in size (none where there is much lime: Eslami and others 2024, abstract; the upper end from memory, weak), open share ${openShare} (an assumption, no source)`,
    ),
    ...claimed.map((field) =>
      osmosis(`The field that the plan says the treatment makes, ${field} V/m`, field, 'computed in the same way'),
    ),
    osmosis(`A field of ${strong} V/m, an example of a strong one`, strong, 'computed in the same way'),
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

function movedBy(field_V_per_m: number, zeta: number): number {
  const metres_per_s = (permittivity_F_per_m * (zeta / 1000) * field_V_per_m) / viscosity_Pa_s;
  return metres_per_s * 1000 * secondsADay * openShare;
}

function rangeInWords({ low, high }: FromTo): string {
  return `${low} to ${high}`;
}
