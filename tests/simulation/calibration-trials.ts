import {
  censoredMean,
  concordance,
  deming,
  type Interval,
  inverseAt,
  type LeftCensored,
  limitsOfRepeated,
  normalDraws,
  randomStream,
  york,
  yorkByGroups,
} from '../../src/statistics/index.js';

/** How often a method's 95 % intervals held the truth. */
export interface CalibrationCoverage {
  readonly label: string;
  readonly held: number;
  /** In the first trials, which a test can afford to make again. */
  readonly heldAtFirst: number;
  readonly trials: number;
}

interface CalibrationRun {
  readonly walls: number;
  readonly seed: number;
  readonly methods: readonly CalibrationCoverage[];
}

export interface CalibrationFile {
  readonly source: string;
  readonly runs: readonly CalibrationRun[];
}

type Draw = () => number;

export const firstTrials = 20;

const slope = 5;
const errors = { core: 0.4, meter: 2, wall: 1 };
const errorRatio = (errors.meter ** 2 + errors.wall ** 2) / errors.core ** 2;

/** Six pairs of core and reading on each wall; the meter has an error of its own on every wall. */
function pairsOfWalls(walls: number, draw: Draw) {
  const [x, y, groups]: [number[], number[], string[]] = [[], [], []];
  for (let wall = 0; wall < walls; wall++) {
    const [level, own] = [8 + 1.5 * draw(), errors.wall * draw()];
    for (let pair = 0; pair < 6; pair++) {
      const truth = level + 1.2 * draw();
      x.push(truth + errors.core * draw());
      y.push(10 + slope * truth + own + errors.meter * draw());
      groups.push(String(wall));
    }
  }
  return { x, y, groups };
}

const holds = ({ lower, upper }: Interval, truth: number) => lower <= truth && truth <= upper;

const methods: readonly { readonly label: string; readonly holds: (walls: number, draw: Draw) => boolean }[] = [
  {
    label: '`deming`, slope, a wall left out at a time',
    holds: (walls, draw) => {
      const { groups, ...pairs } = pairsOfWalls(walls, draw);
      return holds(deming(pairs, { errorRatio, groups }).slopeInterval, slope);
    },
  },
  {
    label: '`inverseAt`, the core beside a reading on a new wall',
    holds: (walls, draw) => {
      const { groups, ...pairs } = pairsOfWalls(walls, draw);
      const line = deming(pairs, { errorRatio, groups });
      const truth = 8 + 1.5 * draw() + 1.2 * draw();
      const reading = 10 + slope * truth + errors.wall * draw() + errors.meter * draw();
      const { interval } = inverseAt(line, reading, { newReading: line.scatter });
      return holds(interval, truth + errors.core * draw());
    },
  },
  {
    label: '`york`, slope, uncertainties as stated',
    holds: (walls, draw) => {
      const truths = Array.from({ length: 3 * walls }, () => 8 + 2 * draw());
      const uncertaintyX = truths.map((_, index) => 0.2 + (index % 5) / 10);
      const uncertaintyY = truths.map((_, index) => 1 + (index % 3) / 2);
      const x = truths.map((truth, index) => truth + uncertaintyX[index]! * draw());
      const y = truths.map((truth, index) => 10 + slope * truth + uncertaintyY[index]! * draw());
      return holds(york({ x, y, uncertaintyX, uncertaintyY }).slopeInterval, slope);
    },
  },
  {
    label: '`limitsOfRepeated`, upper limit, four pairs a wall',
    holds: (walls, draw) => {
      const things = Array.from({ length: walls }, () => {
        const own = 0.3 + 0.5 * draw();
        const y = Array.from({ length: 4 }, () => 8 + 2 * draw());
        return { x: y.map((value) => value + own + 0.8 * draw()), y };
      });
      // The 97.5 % point of the normal distribution times the standard deviation of single differences.
      const upper = 0.3 + 1.959963984540054 * Math.hypot(0.5, 0.8);
      return holds(limitsOfRepeated({ kind: 'varying', things }).upper.interval, upper);
    },
  },
  {
    label: '`concordance`, one pair a wall',
    holds: (walls, draw) => {
      const x = Array.from({ length: walls }, () => 8 + 2 * draw());
      const y = x.map((value) => value + 0.5 + draw());
      // Variances 4 and 5, covariance 4, shift 0.5.
      return holds(concordance(x, y).interval, 8 / (4 + 5 + 0.25));
    },
  },
  {
    label: '`censoredMean`, normal, a fifth below the limit, two values a wall',
    holds: (walls, draw) => {
      const values = Array.from({ length: 2 * walls }, (): LeftCensored => {
        const value = 5 + 2 * draw();
        return value < 3.3 ? { kind: 'below', limit: 3.3 } : { kind: 'measured', value };
      });
      return holds(censoredMean(values).interval, 5);
    },
  },
  {
    label: '`yorkByGroups`, slope, a wall left out at a time',
    holds: (walls, draw) => {
      const { groups, ...pairs } = pairsOfWalls(walls, draw);
      // Stated without the meter's own error on every wall, which only the walls can show.
      const uncertaintyX = pairs.x.map(() => errors.core);
      const uncertaintyY = pairs.y.map(() => errors.meter);
      return holds(yorkByGroups({ ...pairs, uncertaintyX, uncertaintyY }, groups).slopeInterval, slope);
    },
  },
];

/** Every method on the same number of walls, each in trials of its own. */
export function countCalibrationCoverage(walls: number, trials: number, seed: number): readonly CalibrationCoverage[] {
  return methods.map(({ label, holds: held }, index) => {
    const stream = randomStream(seed + index);
    let block: number[] = [];
    const draw = () => {
      if (block.length === 0) block = [...normalDraws(stream, 1024)];
      return block.pop() as number;
    };
    let [count, heldAtFirst] = [0, 0];
    for (let trial = 1; trial <= trials; trial++) {
      if (held(walls, draw)) count++;
      if (trial === firstTrials) heldAtFirst = count;
    }
    return { label, held: count, heldAtFirst, trials };
  });
}

export function isInBand({ held, trials }: CalibrationCoverage): boolean {
  return held / trials >= 0.935 && held / trials <= 0.965;
}

/** The committed table, from the committed counts. */
export function calibrationTable({ source, runs }: CalibrationFile): string {
  const rows = runs.flatMap(({ walls, methods: all }) =>
    all.map((one) => {
      const coverage = `${((100 * one.held) / one.trials).toFixed(1)} %`;
      return `| ${walls} | ${one.label} | ${isInBand(one) ? coverage : `**${coverage}**`} |`;
    }),
  );
  const trials = runs[0]?.methods[0]?.trials ?? 1;
  return `# Coverage of 95 % intervals of calibration and agreement

Made by ${source}; not edited by hand. ${trials.toLocaleString('en-GB')} simulated trials a row, so that a coverage of 95 % has a standard error
of ${(100 * Math.sqrt((0.95 * 0.05) / trials)).toFixed(2)} points. From 93.5 % to 96.5 % is taken as right; what is outside is in bold. The trials are written out in
\`calibration-trials.ts\`. In those of \`deming\`, \`inverseAt\` and \`yorkByGroups\` the meter has an error of its own on every wall;
\`deming\` knows the ratio of the errors with it, \`yorkByGroups\` the errors without it.

| walls | method | coverage |
| ---: | --- | ---: |
${rows.join('\n')}
`;
}
