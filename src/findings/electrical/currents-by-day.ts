import { isoDay } from '../../plain/days.js';
import { valuesBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import type { ElectricalRecord, Trial } from '../../trial/index.js';
import { circuitsOfWall } from './circuits-of-wall.js';

/** The current of a circuit from day to day, in runs without an interruption. */
export interface CurrentsOfCircuit {
  readonly wall: string;
  readonly arm: string;
  readonly runs: readonly (readonly CurrentOfDay[])[];
}

interface CurrentOfDay {
  readonly day: string;
  /** Mean over the readings of that day while on, in size. */
  readonly current_a: number;
}

/** Empty without `electrical.csv`; circuits without a current are left out. */
export function currentsByDay({ electrical = [], walls }: Trial): readonly CurrentsOfCircuit[] {
  return walls.flatMap(({ wall, arm }) =>
    circuitsOfWall(electrical.filter((row) => row.wall === wall)).flatMap((rows) => {
      const runs = runsOf(rows);
      return runs.length === 0 ? [] : [{ wall, arm, runs }];
    }),
  );
}

function runsOf(rows: readonly ElectricalRecord[]): readonly (readonly CurrentOfDay[])[] {
  const runs: ElectricalRecord[][] = [[]];
  for (const row of rows) {
    if (row.state === 'off') runs.push([]);
    else if (row.current_a !== undefined) runs.at(-1)?.push(row);
  }
  return runs.filter((run) => run.length > 0).map(daysOf);
}

function daysOf(run: readonly ElectricalRecord[]): readonly CurrentOfDay[] {
  const days = valuesBy(
    run,
    ({ time }) => isoDay(time),
    ({ current_a = 0 }) => Math.abs(current_a),
  );
  return [...days].map(([day, currents]) => ({ day, current_a: mean(currents) }));
}
