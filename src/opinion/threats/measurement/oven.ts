import type { Side } from '../../../analysis/index.js';
import { meetsOwnRule, stillIn_pct } from '../../../findings/cores/batch-groups.js';
import { limits } from '../../../findings/limits.js';
import { crystalWaterError, dryingRules, hydratedSalts } from '../../../moisture/index.js';
import { isoDay } from '../../../plain/days.js';
import { mean } from '../../../statistics/index.js';
import { type Core, type DryingBatchRecord, windowSorter, windowsOf } from '../../../trial/index.js';
import { countInWords, listInWords } from '../../../words/quantity.js';
import { type Facts, kindOfOutcome } from '../facts.js';
import { found, notFound, type Search, silent } from '../threat.js';

/** For saying how large the error can be; nobody has measured the salt. */
const examplePercent = 10;

/** Gypsum and its half-hydrate in the languages of the trade on the continent; anhydrite takes up water and gives it off again. */
const gypsumWords = /gyps|gips|anhydri|pl[aâ]tre|yeso|escayola|gesso|scagliola/i;

export const ovenNotStated: Search = {
  code: 'oven-not-stated',
  domain: 'measurement',
  name: 'Oven and constant mass',
  lookedFor: 'the folder says at what temperature cores were dried and how constant mass was reached',
  direction: 'either way',
  remedy: 'Record the oven’s temperature and the last change of mass of every batch (`batches.csv`).',
  restsOn: ['instrument'],
  look: ({ facts }) => {
    if (kindOfOutcome(facts) !== 'gravimetric') return undefined;
    const stated = statedBatches(facts);
    if (stated.all === 0) return undefined;
    const text = `Of ${countInWords(stated.all, stated.what)}, ${stated.known} name a batch whose oven and constant mass are recorded.`;
    if (stated.known >= limits.stated.value * stated.all) return notFound(text);
    return silent(
      '`batches.csv` with `oven_c` and `stop_rule` or `last_change_pct`, and `batch` in `cores.csv`',
      `${text} Cores left damp look drier than they are, and cores dried too hot look wetter.`,
    );
  },
};

/** Cores inside the windows; where a gravimetric outcome comes as readings, which name no batch, the batches speak for all. */
function statedBatches(facts: Facts) {
  const { trial } = facts;
  const isStated = ({ oven_c, stopRule, lastChange_pct }: DryingBatchRecord) =>
    oven_c !== undefined && (stopRule !== undefined || lastChange_pct !== undefined);
  const cores = comparedCores(facts);
  if (cores.length === 0) {
    const { batches = [] } = trial;
    const known = batches.length > 0 && batches.every(isStated) ? facts.used.length : 0;
    return { all: facts.used.length, known, what: 'outcome reading' };
  }
  const batches = new Map((trial.batches ?? []).map((batch) => [batch.batch, batch]));
  const known = cores.filter(({ batch }) => {
    const own = batch === undefined ? undefined : batches.get(batch);
    return own !== undefined && isStated(own);
  }).length;
  return { all: cores.length, known, what: 'core' };
}

function comparedCores({ trial, sides }: Facts): readonly Core[] {
  const windowOf = windowSorter(trial);
  return trial.cores.filter(
    ({ wall, date }) =>
      sides.has(wall) && (windowsOf(trial, wall) === undefined || windowOf(wall, isoDay(date)) !== undefined),
  );
}

/** Cores of walls that hold gypsum, dried so hot that its crystal water leaves and is read as moisture. */
export const ovenTooHotForGypsum: Search = {
  code: 'oven-too-hot-for-gypsum',
  domain: 'measurement',
  name: 'Gypsum dried too hot',
  lookedFor: 'cores of walls that hold gypsum were dried so hot that its crystal water left',
  direction: 'either way',
  remedy: 'Dry material that holds gypsum at 40 °C, and every core at the same temperature.',
  restsOn: ['instrument', 'walls'],
  look: ({ facts }) => {
    const gypsumWalls = wallsOfGypsum(facts);
    const dried = driedCores(facts).filter(({ core }) => gypsumWalls.has(core.wall));
    if (dried.length === 0) return undefined;
    const { stableUpTo_c } = hydratedSalts.gypsum;
    const hot = dried.filter(({ batch }) => (batch.oven_c ?? 0) > stableUpTo_c);
    const temperatures = [...new Set(dried.flatMap(({ batch }) => batch.oven_c ?? []))].sort(
      (one, other) => one - other,
    );
    const ovens = listInWords(temperatures.map((each) => `${each} °C`));
    if (hot.length === 0)
      return notFound(`${countInWords(dried.length, 'core')} of walls that hold gypsum were dried at ${ovens}.`);
    const most = crystalWaterError('gypsum', examplePercent).allLost_pp;
    const isMixed = temperatures.length > 1;
    return found(
      isMixed ? 'serious' : 'minor',
      `${hot.length} of ${countInWords(dried.length, 'core')} of walls that hold gypsum ${hot.length === 1 ? 'was' : 'were'} dried above ${stableUpTo_c} °C (${ovens}). Gypsum then gives off its own water, which is weighed as damp: up to ${most.toFixed(1)} percentage points where a tenth of the material is gypsum. ${isMixed ? 'The ovens differed, so that a difference between visits or walls can come from the oven.' : 'All were dried at the same temperature, so that most of it drops out of a change.'}`,
      { measure: { value: most, unit: 'percentage points, where a tenth is gypsum' } },
    );
  },
};

/** Cores of walls without gypsum, dried so unlike that the difference between arms or visits can be the oven's. */
export const driedUnlike: Search = {
  code: 'dried-unlike',
  domain: 'measurement',
  name: 'Ovens that differ',
  lookedFor: 'the cores were all dried at one temperature',
  direction: 'either way',
  remedy: 'Dry every core of a trial at the same temperature, and weigh some of the cooler ones again after 105 °C.',
  restsOn: ['instrument'],
  look: ({ facts }) => {
    const gypsumWalls = wallsOfGypsum(facts);
    const windowOf = windowSorter(facts.trial);
    const ovens = driedCores(facts).flatMap(({ core, batch: { oven_c } }) => {
      const side = facts.sides.get(core.wall);
      const window = windowOf(core.wall, isoDay(core.date));
      if (oven_c === undefined || side === undefined || window === undefined || gypsumWalls.has(core.wall)) return [];
      return [{ side, window, oven_c }];
    });
    if (ovens.length === 0) return undefined;
    const all = ovens.map(({ oven_c }) => oven_c);
    const span = Math.max(...all) - Math.min(...all);
    const temperatures = [...new Set(all)].sort((one, other) => one - other).map((each) => `${each} °C`);
    const measure = { value: span, unit: '°C' };
    if (span <= limits.ovensApart_c.value)
      return notFound(`The cores were dried at ${listInWords(temperatures)}.`, { measure });
    const isAlike = (window: 'before' | 'after') => {
      const ofSide = (side: Side) =>
        ovens.flatMap((each) => (each.side === side && each.window === window ? [each.oven_c] : []));
      const [treated, untreated] = [ofSide('treated'), ofSide('untreated')];
      if (treated.length === 0 || untreated.length === 0) return treated.length === untreated.length;
      return Math.abs(mean(treated) - mean(untreated)) <= limits.ovensApart_c.value;
    };
    const apart = !(isAlike('before') && isAlike('after'));
    return found(
      apart ? 'serious' : 'minor',
      `The cores were not all dried at one temperature (${listInWords(temperatures)}). ${apart ? 'Treated and untreated walls are not known to have been dried alike, so that a difference between the arms can be the oven’s.' : 'The temperatures were alike for treated and untreated walls, so that most of it drops out of the comparison.'} A cooler oven leaves water in, and the core looks drier than it is.`,
      { measure },
    );
  },
};

function wallsOfGypsum({ trial }: Facts): ReadonlySet<string> {
  return new Set(trial.walls.flatMap(({ wall, material }) => (gypsumWords.test(material ?? '') ? [wall] : [])));
}

/** Cores weighed dry while still losing more than their batch's own rule or the usual one allows. */
export const notDriedToConstantMass: Search = {
  code: 'not-dried-to-constant-mass',
  domain: 'measurement',
  name: 'Cores not dried to constant mass',
  lookedFor: 'cores were weighed dry while they were still losing mass',
  direction: 'either way',
  remedy: 'Weigh every batch until three weighings a day apart agree to 0.1 % of the mass.',
  restsOn: ['instrument'],
  look: ({ facts }) => {
    const dried = driedCores(facts);
    const { tolerance_pct } = dryingRules['iso-12570'];
    const breaksUsual = (batch: DryingBatchRecord) => (batch.lastChange_pct ?? 0) > tolerance_pct;
    const breaksOwn = (batch: DryingBatchRecord) => meetsOwnRule(batch) === false;
    if (dried.every(({ batch }) => batch.lastChange_pct === undefined)) return undefined;
    const wet = dried.filter(({ batch }) => breaksUsual(batch) || breaksOwn(batch));
    if (wet.length === 0)
      return notFound(
        `${countInWords(dried.length, 'core')} lost no more than their rule allows between the last weighings.`,
      );
    const unmet = [...new Set(wet.filter(({ batch }) => breaksOwn(batch)).map(({ batch }) => batch.batch))];
    const rules = [
      ...(wet.some(({ batch }) => breaksUsual(batch)) ? [`more than the ${tolerance_pct} % of the usual rule`] : []),
      ...(unmet.length === 0 ? [] : [`in ${batchesInWords(unmet)} more than the batch’s own stop rule allows`]),
    ];
    const batches = [...new Set(wet.map(({ batch }) => batch.batch))];
    const largest = Math.max(...wet.map(({ batch }) => batch.lastChange_pct ?? 0));
    const still = Math.max(...wet.map(({ batch }) => stillTakenIn_pct(batch)));
    const isKnown = wet.every(({ batch }) => isTold(batch));
    const { margin = 1 } = facts.trial.protocol;
    return found(
      still >= limits.dampMargins.value * margin ? 'serious' : 'minor',
      `${countInWords(wet.length, 'core')} (${batchesInWords(batches)}) ${wet.length === 1 ? 'was' : 'were'} taken as dry while still losing up to ${largest} % of mass between weighings, ${rules.join(', and ')}. ${stillInWords(still, isKnown)} Water left in makes a core look drier than it is.`,
      { measure: { value: largest, unit: '% of mass between the last weighings' } },
    );
  },
};

/** What was still in a batch, % of the mass; the convention where its changes do not tell, or tell more. */
function stillTakenIn_pct(batch: DryingBatchRecord): number {
  const most = limits.lastChanges.value * (batch.lastChange_pct ?? 0);
  return Math.min(stillIn_pct(batch) ?? most, most);
}

function isTold(batch: DryingBatchRecord): boolean {
  return (stillIn_pct(batch) ?? Number.POSITIVE_INFINITY) <= limits.lastChanges.value * (batch.lastChange_pct ?? 0);
}

function stillInWords(still: number, isKnown: boolean): string {
  const amount = `${Number(still.toPrecision(3))} % of the mass`;
  return isKnown
    ? `From how the losses fell off, up to ${amount} was still in them.`
    : `How much was still in them is not known, for the change before the last is not stated or hardly larger. It is taken as ${amount}, ${limits.lastChanges.value} times the last change (${limits.lastChanges.mark}), and may be more.`;
}

function batchesInWords(batches: readonly string[]): string {
  return `${batches.length === 1 ? 'batch' : 'batches'} ${listInWords(batches)}`;
}

/** The cores of the outcome that name a batch, with it. */
export function driedCores(facts: Facts): readonly { readonly core: Core; readonly batch: DryingBatchRecord }[] {
  const { trial } = facts;
  if (kindOfOutcome(facts) !== 'gravimetric') return [];
  const batches = new Map((trial.batches ?? []).map((batch) => [batch.batch, batch]));
  return trial.cores.flatMap((core) => {
    const batch = core.batch === undefined ? undefined : batches.get(core.batch);
    return batch === undefined || !facts.sides.has(core.wall) ? [] : [{ core, batch }];
  });
}
