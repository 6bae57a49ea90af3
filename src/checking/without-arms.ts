import type { Trial } from '../trial/index.js';

const onlyArm = 'all walls';

/**
 * The trial as somebody sees it who does not know the allocation: all walls in one arm. Whatever a check says of outcomes is computed
 * from this, so that nobody learns from it how the arms differ.
 */
export function withoutArms(trial: Trial): Trial {
  const { compare: _, ...protocol } = trial.protocol;
  return {
    ...trial,
    protocol: { ...protocol, arms: [{ arm: onlyArm, role: 'control' }] },
    walls: trial.walls.map((wall) => ({ ...wall, arm: onlyArm })),
    beliefs: [],
  };
}
