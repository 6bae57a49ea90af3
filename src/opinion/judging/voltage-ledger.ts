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
    size: '0.16 mV for each kPa in pore water of 0.1 S/m; ten times that in purer water, a tenth in salty',
    mark: 'computed (Helmholtz and Smoluchowski, zeta −20 mV)',
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

export interface LedgerEntry {
  readonly driver: string;
  readonly flux_mm_per_day: number;
  /** Of what evaporation moves; 1 for evaporation itself. */
  readonly share: number;
  readonly how: string;
}

const secondsADay = 86_400;
const permittivity_F_per_m = 78.4 * 8.854e-12;
const viscosity_Pa_s = 0.89e-3;
const zeta_V = 0.02;
/** Porosity times tortuosity. */
const openShare = 0.15;

/**
 * Water moved by electro-osmosis (Helmholtz and Smoluchowski: permittivity × zeta × field / viscosity, times the open share)
 * beside the water that evaporation draws through the foot of a wall (sorptivity S = 1 mm/min^½, water content 0.2, 0.001 mm/min
 * of evaporation, 225 mm thick: sharp front, Hall and Hoff 2007). In mm of water a day, through the wall's cross-section.
 *
 * @param claimed_v_per_m the field that the treatment is said to make, where the plan states one
 * @example plausibilityLedger(5).map(({ share }) => share) // [1, 0.0042, 0.21, 4.2]
 */
export function plausibilityLedger(claimed_v_per_m?: number): readonly LedgerEntry[] {
  const [sorptivity, content, evaporation_mm_per_min, thickness_mm] = [1, 0.2, 0.001, 225];
  const height_mm = sorptivity * Math.sqrt(thickness_mm / (2 * evaporation_mm_per_min * content));
  const evaporated = (evaporation_mm_per_min * 1440 * height_mm) / thickness_mm;
  const osmosis = (driver: string, field_V_per_m: number, how: string): LedgerEntry => {
    const metres_per_s = (permittivity_F_per_m * zeta_V * field_V_per_m) / viscosity_Pa_s;
    const flux_mm_per_day = metres_per_s * 1000 * secondsADay * openShare;
    return { driver, flux_mm_per_day, share: flux_mm_per_day / evaporated, how };
  };
  const claimed = claimed_v_per_m === undefined ? [] : [claimed_v_per_m];
  return [
    {
      driver: 'Evaporation from the wall',
      flux_mm_per_day: evaporated,
      share: 1,
      how: 'computed: steady sharp front, textbook values',
    },
    osmosis('A field of 0.1 V/m, as found in walls', 0.1, 'computed: zeta −20 mV, open share 0.15 (an assumption)'),
    ...claimed.map((field) =>
      osmosis(`The field that the plan says the treatment makes, ${field} V/m`, field, 'computed in the same way'),
    ),
    osmosis('A field of 100 V/m, strongly driven', 100, 'computed in the same way'),
  ];
}
