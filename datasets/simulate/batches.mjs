/** Last change of mass of one batch after another, in percent: whatever the oven had come to when somebody looked. */
const lastChanges = ['0.05', '0.03', '0.06', '0.04', '0.07', '0.02'];

/** The cores of a visit dried together at 105 °C until they lost no more: the cores with their batch, and the batches. */
export function driedByVisit(cores) {
  const visits = [...new Set(cores.map(({ date }) => date))];
  const batchOf = (date) => `B${visits.indexOf(date) + 1}`;
  return {
    cores: cores.map(({ reader, knew_arm, ...core }) => ({ ...core, batch: batchOf(core.date), reader, knew_arm })),
    batches: visits.map((date, visit) => ({
      batch: batchOf(date),
      oven_c: '105',
      stop_rule: 'change under 0.1 % of the mass in 24 h',
      last_change_pct: lastChanges[visit % lastChanges.length],
    })),
  };
}
