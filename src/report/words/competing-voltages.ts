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
