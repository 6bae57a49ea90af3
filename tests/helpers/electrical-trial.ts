import type { ElectricalRecord, Trial } from '../../src/trial/index.js';

export interface Electrodes {
  /** So many of the 356 days from the treatment to the end of the after window: on from the first day. */
  readonly daysOn?: number;
  /** Current in ampere, of a wall, so many days after the treatment. */
  readonly current?: (wall: string, day: number) => number;
  readonly polarity?: (day: number) => ElectricalRecord['polarity'];
  /** Days of the rows after the treatment. */
  readonly days?: readonly number[];
}

const treatedOn = Date.UTC(2024, 5, 10);
const wholeDays = 355;
export const plannedDays = wholeDays + 1;

/** Electrodes in every treated wall of a made trial, and in those untreated walls to which `current` gives any. */
export function withElectrodes(
  trial: Trial,
  {
    daysOn = plannedDays,
    current = (wall) => (wall.startsWith('T') ? 0.04 : 0),
    polarity,
    days = Array.from({ length: 9 }, (_, k) => (k * daysOn) / 8),
  }: Electrodes = {},
): Trial {
  const electrical = trial.walls.flatMap(({ wall }) =>
    days.map((day, at): ElectricalRecord => {
      const time = new Date(treatedOn + 86_400_000 * day).toISOString();
      const isLast = at === days.length - 1;
      const turned = polarity?.(day);
      return {
        ...{ time, wall, origin: { file: 'electrical.csv', row: at + 2 } },
        ...(turned === undefined ? {} : { polarity: turned }),
        ...(isLast ? { state: 'off' } : { state: 'on', voltage_v: 12, current_a: current(wall, day) }),
      };
    }),
  );
  return { ...trial, electrical };
}
