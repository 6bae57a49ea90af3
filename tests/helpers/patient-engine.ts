/**
 * Flags for a process that runs much code for a moment each. Opinions and simulations leave much behind: with room for it, it is gone
 * before anybody looks. And to make machine code of functions some five times later than the engine would saves a seventh of the time in the
 * tests, a quarter in notebooks; later engines have no such number.
 */
export const patientEngine: readonly string[] = [
  '--min-semi-space-size=16',
  '--max-semi-space-size=64',
  ...(Number(process.versions.node.split('.')[0]) < 22 ? ['--interrupt-budget=600000'] : []),
];
