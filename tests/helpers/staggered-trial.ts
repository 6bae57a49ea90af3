import type { Reading, Trial, Wall, Windows } from '../../src/trial/index.js';
import { madeTrial } from './made-trial.js';

const origin = { file: 'readings.csv', row: 2 };
export const autumn: Windows = {
  before: { from: '2024-09-01', to: '2024-11-30' },
  after: { from: '2025-09-01', to: '2025-11-30' },
};

/** Months: four visits in each spring and each autumn, by which every wall is read. */
const days = ['2024-03', '2024-05', '2024-09', '2024-11', '2025-03', '2025-05', '2025-09', '2025-11'].flatMap(
  (month) => [`${month}-04`, `${month}-20`],
);

/** Four pairs, two treated in June and two in December: treated walls fall by 3 on the day of their treatment. */
export function staggered(ownWindows: boolean): Trial {
  const walls = Array.from({ length: 8 }, (_, at): Wall => {
    const pair = Math.floor(at / 2);
    const isLate = pair >= 2;
    return {
      wall: `W${at}`,
      arm: at % 2 === 0 ? 'treated' : 'sham',
      block: `P${pair}`,
      ...(at % 2 === 0 ? { treatedOn: isLate ? '2024-12-10' : '2024-06-10' } : {}),
      ...(isLate && ownWindows ? { windows: autumn } : {}),
      origin,
    };
  });
  const readings = walls.flatMap(({ wall, treatedOn }, at) =>
    days.map((date, visit): Reading => {
      const fallen = treatedOn !== undefined && date >= treatedOn ? 3 : 0;
      const season = date.slice(5, 7) >= '09' ? 1.5 : 0;
      const value = 8 + 0.4 * at + season + 0.1 * Math.sin(7 * at + 3 * visit) - fallen;
      const measured = { kind: 'measured' as const, value };
      return { date, wall, station: '', instrument: 'core', value: measured, reader: 'R', knewArm: 'no', origin };
    }),
  );
  return { ...madeTrial([]), walls, readings };
}
