import type { Side } from '../../analysis/index.js';
import { crystalWaterError, dryingRules, hydratedSalts } from '../../moisture/index.js';
import { mean } from '../../statistics/index.js';
import { type Core, type DryingBatchRecord, isInWindow } from '../../trial/index.js';
import { meetsOwnRule } from '../cores/batch-groups.js';
import type { Weakness } from '../opinion.js';
import { countInWords, listInWords } from '../words/quantity.js';
import type { Facts } from './facts.js';

/** For saying how large the error can be; nobody has measured the salt. */
const examplePercent = 10;

/** Cores of walls that hold gypsum, dried so hot that its crystal water leaves and is read as moisture. */
export function ovenTooHotForGypsum(facts: Facts): Weakness | undefined {
  const gypsumWalls = wallsOfGypsum(facts);
  const dried = driedCores(facts).filter(({ core }) => gypsumWalls.has(core.wall));
  const { stableUpTo_c } = hydratedSalts.gypsum;
  const hot = dried.filter(({ batch }) => (batch.oven_c ?? 0) > stableUpTo_c);
  if (hot.length === 0) return undefined;
  const temperatures = [...new Set(dried.flatMap(({ batch }) => batch.oven_c ?? []))].sort((one, other) => one - other);
  const most = crystalWaterError('gypsum', examplePercent).allLost_pp.toFixed(1);
  const isMixed = temperatures.length > 1;
  const comparison = isMixed
    ? 'and as they were not all dried at the same temperature, the difference between visits or walls can come from the oven'
    : 'but all were dried at the same temperature, so that most of it drops out of a change';
  return {
    code: 'oven-too-hot-for-gypsum',
    seriousness: isMixed ? 'serious' : 'minor',
    text: `${hot.length} of ${countInWords(dried.length, 'core')} of walls that hold gypsum ${hot.length === 1 ? 'was' : 'were'} dried above ${stableUpTo_c} °C (ovens at ${listInWords(temperatures.map((each) => `${each} °C`))}). Gypsum then gives off its own water, which is weighed as damp: up to ${most} percentage points too wet where a tenth of the material is gypsum, ${comparison}.`,
    remedy: 'Dry material that holds gypsum at 40 °C, and every core at the same temperature.',
  };
}

/** Ovens further apart than this dry differently. Our own rule, no source. */
const sameOven_c = 5;

/** Cores of walls without gypsum, dried so unlike that the difference between arms or visits can be the oven's. */
export function driedUnlike(facts: Facts): Weakness | undefined {
  const gypsumWalls = wallsOfGypsum(facts);
  const { windows } = facts.trial.protocol;
  if (windows === undefined) return undefined;
  const ovens = driedCores(facts).flatMap(({ core, batch: { oven_c } }) => {
    const side = facts.sides.get(core.wall);
    const window = (['before', 'after'] as const).find((one) => isInWindow(core.date.slice(0, 10), windows[one]));
    if (oven_c === undefined || side === undefined || window === undefined || gypsumWalls.has(core.wall)) return [];
    return [{ side, window, oven_c }];
  });
  const all = ovens.map(({ oven_c }) => oven_c);
  if (all.length === 0 || Math.max(...all) - Math.min(...all) <= sameOven_c) return undefined;
  const isAlike = (window: 'before' | 'after') => {
    const ofSide = (side: Side) => ovens.filter((each) => each.side === side && each.window === window);
    const [treated, untreated] = [ofSide('treated'), ofSide('untreated')].map((own) => own.map(({ oven_c }) => oven_c));
    if (!treated?.length || !untreated?.length) return !treated?.length && !untreated?.length;
    return Math.abs(mean(treated) - mean(untreated)) <= sameOven_c;
  };
  const apart = !(isAlike('before') && isAlike('after'));
  const temperatures = [...new Set(all)].sort((one, other) => one - other).map((each) => `${each} °C`);
  const whose = apart
    ? 'and not known to be alike for treated and untreated walls, so that a difference between the arms can be the oven’s'
    : 'but alike for treated and untreated walls, so that most of it drops out of the comparison';
  return {
    code: 'dried-unlike',
    seriousness: apart ? 'serious' : 'minor',
    text: `The cores were not all dried at one temperature (${listInWords(temperatures)}), ${whose}. A cooler oven leaves water in, and the core then looks drier than it is; by how much, the folder does not say.`,
    remedy: 'Dry every core of a trial at the same temperature, and weigh some of the cooler ones again after 105 °C.',
  };
}

function wallsOfGypsum({ trial }: Facts): ReadonlySet<string> {
  return new Set(trial.walls.filter(({ material }) => /gyps/i.test(material ?? '')).map(({ wall }) => wall));
}

/** Cores weighed dry while still losing more than their batch's own rule or the usual one allows. */
export function notDriedToConstantMass(facts: Facts): Weakness | undefined {
  const dried = driedCores(facts);
  const { tolerance_pct } = dryingRules['iso-12570'];
  const breaksUsual = (batch: DryingBatchRecord) => (batch.lastChange_pct ?? 0) > tolerance_pct;
  const breaksOwn = (batch: DryingBatchRecord) => meetsOwnRule(batch) === false;
  const wet = dried.filter(({ batch }) => breaksUsual(batch) || breaksOwn(batch));
  if (wet.length === 0) return undefined;
  const unmet = [...new Set(wet.filter(({ batch }) => breaksOwn(batch)).map(({ batch }) => batch.batch))];
  const rules = [
    ...(wet.some(({ batch }) => breaksUsual(batch)) ? [`more than the ${tolerance_pct} % of the usual rule`] : []),
    ...(unmet.length === 0 ? [] : [`in ${batchesInWords(unmet)} more than the batch’s own stop rule allows`]),
  ];
  const batches = [...new Set(wet.map(({ batch }) => batch.batch))];
  const largest = Math.max(...wet.map(({ batch }) => batch.lastChange_pct ?? 0));
  return {
    code: 'not-dried-to-constant-mass',
    seriousness: 'minor',
    text: `${countInWords(wet.length, 'core')} (${batchesInWords(batches)}) ${wet.length === 1 ? 'was' : 'were'} taken as dry while still losing up to ${largest} % of mass between weighings, ${rules.join(', and ')}; water left in makes a core look drier than it is, by some ${largest} percentage points where as much again was still to go.`,
    remedy: 'Weigh every batch until three weighings a day apart agree to 0.1 % of the mass.',
  };
}

function batchesInWords(batches: readonly string[]): string {
  return `${batches.length === 1 ? 'batch' : 'batches'} ${listInWords(batches)}`;
}

/** The cores of the outcome that name a batch, with it. */
function driedCores({ trial }: Facts): readonly { readonly core: Core; readonly batch: DryingBatchRecord }[] {
  const { instruments, outcome } = trial.protocol;
  const isOutcome = instruments.some(
    ({ instrument, kind }) => instrument === outcome.instrument && kind === 'gravimetric',
  );
  if (!isOutcome) return [];
  const batches = new Map((trial.batches ?? []).map((batch) => [batch.batch, batch]));
  return trial.cores.flatMap((core) => {
    const batch = core.batch === undefined ? undefined : batches.get(core.batch);
    return batch === undefined ? [] : [{ core, batch }];
  });
}
