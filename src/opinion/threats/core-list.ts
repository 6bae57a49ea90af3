/**
 * What a folder must say before its evidence can be firm, whatever its numbers. Silence on an item weighs as one serious threat, and
 * all threats that rest on the same item count once, as the most serious of them: so a statement that is taken away never makes the
 * evidence firmer.
 *
 * There is one exception. A fault that ends a trial (two houses in all, say) is fatal where the folder shows it, and cannot be
 * presumed of every folder that is silent.
 */
export const coreItems = {
  allocation: {
    says: 'how and by whom the walls were allocated to their arms',
    where: '`allocation.method` and `allocation.by` of the plan',
  },
  'plan-day': { says: 'the day on which the plan was fixed', where: '`plannedOn` of the plan' },
  'treatment-day': {
    says: 'the day on which each treated wall was treated',
    where: '`treated_on` of every treated wall in `walls.csv`',
  },
  readers: {
    says: 'who took each reading, and what they then knew of the wall’s arm',
    where: '`reader` and `knew_arm` in `cores.csv` or `readings.csv`',
  },
  instrument: {
    says: 'the oven and how constant mass was reached, or checks of the meter on blocks that do not change',
    where: '`batches.csv` with `oven_c` and `stop_rule` or `last_change_pct` for cores, `checks.csv` for a meter',
  },
  air: {
    says: 'the air beside both arms, or that both stand under one roof',
    where:
      'a `place` in `climate.csv` for the `site` of the walls of each arm, or a `site` in `walls.csv` that both arms share',
  },
  walls: {
    says: 'the site, material and thickness of each wall',
    where: '`site`, `material` and `thickness_mm` in `walls.csv`',
  },
  interests: {
    says: 'who paid, and who gains by the result',
    where: '`disclosures.funding` and `disclosures.interests` of the plan',
  },
} as const;

export type CoreItem = keyof typeof coreItems;
