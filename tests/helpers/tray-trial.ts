import { addDays } from '../../src/plain/days.js';
import type { Reading, Trial } from '../../src/trial/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from './made-trial.js';

const dayAt = (day: number) => addDays('2024-05-10', day);

/**
 * Three treated and three untreated walls in trays, visited every ten days before; `uptake` is that of a day, in ml, counted so that the last
 * four visits before lie about day 0 (−15, −5, 5, 15). Treated walls take up 40 ml a day less after.
 */
export function trayTrial(uptake: (day: number) => number, untreated = 3): Trial {
  const made = madeTrial(wallsWithChanges([0, 0, 0], Array(untreated).fill(0)));
  const days = [-45, -35, -25, -15, -5, 5, 15];
  const readings = made.walls.flatMap(({ wall, arm }, k): readonly Reading[] => {
    const scatter = (visit: number) => 0.3 * Math.sin(1 + 5 * k + 3 * visit);
    const read = (date: string, value: number, row: number): Reading => ({
      ...{
        date,
        wall,
        station: '',
        instrument: 'tray',
        value: { kind: 'measured', value },
        reader: 'R1',
        knewArm: 'no',
      },
      origin: { file: 'trays.csv', row },
    });
    return [
      ...days.map((day, visit) => read(dayAt(day), uptake(day) + scatter(visit), 2 + visit)),
      read('2025-04-10', (arm === 'treated' ? 60 : 100) + scatter(9), 20),
    ];
  });
  const outcome = { instrument: 'tray', quantity: 'water uptake', unit: 'ml/day', better: 'lower' } as const;
  return {
    ...made,
    protocol: {
      ...soundProtocol,
      margin: 15,
      outcome,
      instruments: [{ instrument: 'tray', kind: 'direct', fromTrays: 'refill' }],
    },
    readings,
    trays: [],
  };
}
