import type { ElectricalPart } from '../../findings/electrical/electrical-part.js';
import { missingInWords } from '../words/missing-in-words.js';

const coulombsPerAmpereHour = 3600;

/** The electrodes for `opinion.json`: coulombs and ampere-hours, joules, seconds and ohms. */
export function electricalJson({ walls, arms, trend, ledger }: ElectricalPart) {
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
    arms: arms.map((one) => ({
      ...{ arm: one.arm, side: one.side ?? null, walls: one.walls, charge_c: one.charge_c },
      ...{ charge_ah: one.charge_c / coulombsPerAmpereHour, current_a: one.current_a },
      ...{ onShare: one.onShare ?? null, currentKept: one.currentKept ?? null },
      reversedShare: one.reversedShare ?? null,
    })),
    currentTrend:
      trend === undefined
        ? null
        : {
            ...{ walls: trend.walls, per30Days: trend.trendPer30Days, pValue: trend.pValue ?? null },
            interval: trend.interval === undefined ? null : { ...trend.interval },
          },
    ledger:
      ledger === undefined
        ? null
        : {
            ...{ walls: ledger.walls, charge_c: ledger.charge_c, moved_kg: { ...ledger.moved_kg } },
            electrolysed_kg: ledger.electrolysed_kg,
            lost_kg: ledger.lost_kg ?? null,
            // A column by its name, the rest in words.
            missing: ledger.missing.map((what) =>
              what === 'outcome-by-mass' || what === 'difference' ? missingInWords(what) : what,
            ),
          },
  };
}
