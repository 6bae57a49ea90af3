import type { ElectricalPart } from './electrical-part.js';

const coulombsPerAmpereHour = 3600;

/** The electrodes for `opinion.json`: coulombs and ampere-hours, joules, seconds and ohms. */
export function electricalJson({ walls, ledger }: ElectricalPart) {
  return {
    walls: walls.map(
      ({ wall, arm, side, charge_c, energy_j, on_s, off_s, planned_s, onShare, current_a, circuits }) => ({
        ...{ wall, arm, side: side ?? null, charge_c, charge_ah: charge_c / coulombsPerAmpereHour },
        ...{ energy_j: energy_j ?? null, on_s, off_s, planned_s, onShare: onShare ?? null, current_a },
        circuits: circuits.map((run) => ({
          charge_c: run.charge_c,
          currentKept: run.currentKept ?? null,
          reversedShare: run.reversedShare ?? null,
          resistance_ohm: run.resistance_ohm === undefined ? null : { ...run.resistance_ohm },
        })),
      }),
    ),
    ledger:
      ledger === undefined
        ? null
        : {
            ...{ walls: ledger.walls, charge_c: ledger.charge_c, moved_kg: { ...ledger.moved_kg } },
            electrolysed_kg: ledger.electrolysed_kg,
            lost_kg: ledger.lost_kg ?? null,
            missing: [...ledger.missing],
          },
  };
}
