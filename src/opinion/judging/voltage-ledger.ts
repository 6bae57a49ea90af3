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
    source: 'Another reference electrode',
    size: '+197 to +316 mV against hydrogen, by type; about 0.9 mV for each °C (copper sulphate)',
    mark: 'from memory',
  },
  { source: 'Buried iron, mains, earth currents', size: 'no number known that holds for walls', mark: 'not verified' },
];

export interface LedgerEntry {
  readonly driver: string;
  readonly flux_mm_per_day: number;
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
 */
export function plausibilityLedger(): readonly LedgerEntry[] {
  const osmosis = (field_V_per_m: number) =>
    ((permittivity_F_per_m * zeta_V * field_V_per_m) / viscosity_Pa_s) * 1000 * secondsADay * openShare;
  const [sorptivity, content, evaporation_mm_per_min, thickness_mm] = [1, 0.2, 0.001, 225];
  const height_mm = sorptivity * Math.sqrt(thickness_mm / (2 * evaporation_mm_per_min * content));
  return [
    {
      driver: 'Evaporation from the wall',
      flux_mm_per_day: (evaporation_mm_per_min * 1440 * height_mm) / thickness_mm,
      how: 'computed: steady sharp front, textbook values',
    },
    {
      driver: 'A field of 0.1 V/m, as found in walls',
      flux_mm_per_day: osmosis(0.1),
      how: 'computed: zeta −20 mV, open share 0.15 (an assumption)',
    },
    { driver: 'A field of 100 V/m, strongly driven', flux_mm_per_day: osmosis(100), how: 'computed in the same way' },
  ];
}
