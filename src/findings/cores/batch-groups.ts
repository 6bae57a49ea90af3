import { changeStillToCome_pct, statedTolerance } from '../../moisture/index.js';
import { groupBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import type { DryingBatchRecord, Trial } from '../../trial/index.js';
import type { BatchGroup } from './cores-part.js';

/** The batches that cores name, those treated alike together; nothing where no core names one. */
export function batchGroups({ batches = [], cores }: Trial): readonly BatchGroup[] {
  const coresOf = groupBy(cores, ({ batch }) => batch ?? '');
  const used = batches.filter(({ batch }) => coresOf.has(batch));
  return [...groupBy(used, alike).values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    const { oven_c, stopRule, humidity_pct, humidTemperature_c } = first;
    const isRuleMet = meetsOwnRule(first);
    const still = group.flatMap((batch) => stillIn_pct(batch) ?? []);
    const changes = group.flatMap(({ lastChange_pct }) => lastChange_pct ?? []);
    return [
      {
        batches: group.map(({ batch }) => batch),
        cores: group.reduce((sum, { batch }) => sum + (coresOf.get(batch)?.length ?? 0), 0),
        ...present({ oven_c, stopRule }),
        ...(changes.length === 0 ? {} : { lastChange_pct: Math.max(...changes) }),
        ...(still.length === 0 ? {} : { stillIn_pct: Math.max(...still) }),
        ...present({ isRuleMet, humidity_pct, humidTemperature_c }),
      },
    ];
  });
}

function alike(batch: DryingBatchRecord): string {
  const { oven_c, stopRule, lastChange_pct, humidity_pct, humidTemperature_c } = batch;
  const isWeighed = lastChange_pct !== undefined;
  const isSlowing = stillIn_pct(batch) !== undefined;
  return JSON.stringify([
    oven_c,
    stopRule,
    isWeighed,
    isSlowing,
    meetsOwnRule(batch),
    humidity_pct,
    humidTemperature_c,
  ]);
}

/** What was still in the batch when it was weighed dry, % of the mass; nothing where its last two changes do not tell. */
export function stillIn_pct({ lastChange_pct, changeBefore_pct }: DryingBatchRecord): number | undefined {
  if (lastChange_pct === undefined || changeBefore_pct === undefined) return undefined;
  return changeStillToCome_pct(lastChange_pct, changeBefore_pct);
}

/** Whether the last change lies within what the batch's own stop rule allows; nothing where that cannot be told. */
export function meetsOwnRule({ stopRule, lastChange_pct }: DryingBatchRecord): boolean | undefined {
  const tolerance_pct = stopRule === undefined ? undefined : statedTolerance(stopRule);
  if (tolerance_pct === undefined || lastChange_pct === undefined) return undefined;
  return lastChange_pct <= tolerance_pct;
}
