import type { Side } from '../../analysis/index.js';
import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { type ElectricalRecord, secondsOf, type Trial, windowsOf } from '../../trial/index.js';
import { circuitsOfWall } from './circuits-of-wall.js';
import { type RunOfCircuit, runOfCircuit } from './run-of-circuit.js';

/** What the electrodes of one wall did. */
export interface ElectricalWall {
  readonly wall: string;
  readonly arm: string;
  /** Absent where the arm takes no part in the comparison. */
  readonly side?: Side;
  readonly circuits: readonly RunOfCircuit[];
  /** Over all circuits. */
  readonly charge_c: number;
  /** Absent where a circuit has none. */
  readonly energy_j?: number;
  /** Mean over the circuits. */
  readonly on_s: number;
  readonly off_s: number;
  /** From the treatment, or the first row, to the end of the after window, or the last row. */
  readonly planned_s: number;
  /** Of the planned time, on record as on; absent where no time was planned. */
  readonly onShare?: number;
  /** Sum of the circuits' mean currents. */
  readonly current_a: number;
}

/** Absent without `electrical.csv`. Walls in the order of `walls.csv`, those without a row left out. */
export function electricalOfTrial(
  trial: Trial,
  sides: ReadonlyMap<string, Side>,
): readonly ElectricalWall[] | undefined {
  const { electrical, walls } = trial;
  if (electrical === undefined) return undefined;
  return walls.flatMap(({ wall, arm, treatedOn }) => {
    const rows = electrical.filter((row) => row.wall === wall);
    const side = sides.get(wall);
    if (rows.length === 0) return [];
    const planned_s = plannedTime(rows, treatedOn, windowsOf(trial, wall)?.after.to);
    return [{ wall, arm, ...present({ side }), ...runOfWall(rows, planned_s, trial) }];
  });
}

function runOfWall(rows: readonly ElectricalRecord[], planned_s: number, { protocol }: Trial) {
  const circuits = circuitsOfWall(rows).map((own) => runOfCircuit(own, protocol.treatment?.polarity));
  const total = (of: (run: RunOfCircuit) => number) => circuits.reduce((sum, run) => sum + of(run), 0);
  const hasEnergy = circuits.every(({ energy_j }) => energy_j !== undefined);
  const on_s = total((run) => run.on_s) / circuits.length;
  return {
    circuits,
    charge_c: total((run) => run.charge_c),
    ...(hasEnergy ? { energy_j: total((run) => run.energy_j ?? 0) } : {}),
    on_s,
    off_s: total((run) => run.off_s) / circuits.length,
    planned_s,
    ...(planned_s > 0 ? { onShare: Math.min(1, on_s / planned_s) } : {}),
    current_a: total((run) => run.current_a ?? 0),
  };
}

/** A day begins with its first second and ends with its last. */
function plannedTime(rows: readonly ElectricalRecord[], from: string | undefined, to: string | undefined): number {
  const times = rows.map(({ time }) => secondsOf(time));
  const start = from === undefined ? Math.min(...times) : secondsOf(`${isoDay(from)}T00:00`);
  const end = to === undefined ? Math.max(...times) : secondsOf(`${isoDay(to)}T23:59:59`) + 1;
  return Math.max(0, end - start);
}
