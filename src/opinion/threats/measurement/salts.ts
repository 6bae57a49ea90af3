import { directionOf } from '../../../findings/instruments/direction-of.js';
import { limits } from '../../../findings/limits.js';
import { placedSamples } from '../../../findings/salts/placed-samples.js';
import { type IonBefore, type IonChange, saltChanges, saltsBefore } from '../../../findings/salts/salts-of-sides.js';
import { saltsOfWalls } from '../../../findings/salts/salts-of-walls.js';
import { present } from '../../../plain/present.js';
import type { InstrumentKind } from '../../../trial/index.js';
import { formatPValue } from '../../../words/format-number.js';
import { listInWords, numberInWords } from '../../../words/quantity.js';
import { type Facts, kindOfOutcome } from '../facts.js';
import { couldNotLook, type Direction, found, notFound, type Search } from '../threat.js';

/** What they show follows the ions in the water as well as the water. */
const electrical: ReadonlySet<InstrumentKind | undefined> = new Set(['resistance', 'capacitance', 'potential']);

const file = '`salts.csv` with samples from the same places of treated and untreated walls in both windows';

export const saltsUnlike: Search = {
  code: 'salts-unlike',
  domain: 'measurement',
  name: 'Salt load of the arms',
  lookedFor: 'the walls of both arms held alike much of each salt before the treatment',
  direction: 'either way',
  remedy: 'Sample the walls for salts beforehand, and pair or block walls of like load.',
  look: ({ facts }) => {
    const ions = saltsBefore(ofWalls(facts));
    if (ions.length === 0) return undefined;
    const text = `Before the treatment treated and untreated walls held ${listInWords(ions.map(beforeInWords))} in % by mass.`;
    const unlike = ions.filter(isUnlike);
    const [worst] = [...(unlike.length === 0 ? ions : unlike)].toSorted((one, other) => sizeOf(other) - sizeOf(one));
    const more =
      worst?.ratio === undefined ? {} : { measure: { value: worst.ratio, unit: 'times as much in one arm' } };
    if (unlike.length === 0) return notFound(text, more);
    return found(
      electrical.has(kindOfOutcome(facts)) ? 'serious' : 'minor',
      `${text} Salty walls hold more water from the air, dry more slowly and read wetter on an electrical meter than others.`,
      more,
    );
  },
};

function beforeInWords({ ion, treated, untreated }: IonBefore): string {
  return `${rangeInWords(treated)} and ${rangeInWords(untreated)} ${ion}`;
}

function rangeInWords({ lower_pct, upper_pct }: IonBefore['treated']): string {
  const upper = numberInWords(upper_pct);
  return lower_pct === upper_pct ? upper : `${numberInWords(lower_pct)} to ${upper}`;
}

/** The more of them, the larger; where one arm holds none, beyond all measure. */
function sizeOf({ ratio = Number.MAX_VALUE }: IonBefore): number {
  return ratio;
}

function isUnlike(one: IonBefore): boolean {
  return sizeOf(one) >= limits.saltRatio.value && one.timesLow >= limits.saltsCount.value;
}

export const saltsChangedUnlike: Search = {
  code: 'salts-changed-unlike',
  domain: 'measurement',
  name: 'Salts that changed under an electrical meter',
  lookedFor: 'the salts changed alike in both arms, where the outcome is read with a meter that they move',
  direction: 'either way',
  remedy: 'Weigh cores, or analyse salts at the same places in both windows (`salts.csv`).',
  look: ({ facts }) => {
    if (!electrical.has(kindOfOutcome(facts))) return undefined;
    const ions = saltChanges(ofWalls(facts));
    const { instrument } = facts.trial.protocol.outcome;
    if (ions.length === 0)
      return couldNotLook(
        file,
        `No salts were analysed in both arms before and after, and ${instrument} reads salts as well as water.`,
      );
    const changed = ions.filter(isChanged).toSorted((one, other) => (other.share ?? 0) - (one.share ?? 0));
    const [worst] = changed.length > 0 ? changed : ions.toSorted((one, other) => (other.share ?? 0) - (one.share ?? 0));
    const text = `From before to after treated and untreated walls changed by ${listInWords(ions.map(changeInWords))}, in percentage points.`;
    const more =
      worst === undefined
        ? {}
        : {
            measure: {
              ...{ value: worst.apart_pct, unit: `percentage points of ${worst.ion}` },
              ...present({ pValue: worst.pValue }),
            },
          };
    if (worst === undefined || changed.length === 0) return notFound(text, more);
    return found('serious', `${text} With ${instrument}, less salt looks like less water, and more salt like more.`, {
      ...more,
      direction: directionBy(facts, worst),
    });
  },
};

function isChanged({ share = 0, pValue = 0 }: IonChange): boolean {
  return share >= limits.saltChange.value && pValue < limits.alarm.value;
}

function changeInWords({ ion, treated, untreated, pValue }: IonChange): string {
  const p = pValue === undefined ? '' : ` (${formatPValue(pValue)})`;
  return `${rangeInWords(treated)} and ${rangeInWords(untreated)} ${ion}${p}`;
}

/** Walls that lose salts look drier; a potential may go either way. */
function directionBy(facts: Facts, { apart_pct }: IonChange): Direction {
  const { instruments, outcome } = facts.trial.protocol;
  const meter = instruments.find(({ instrument }) => instrument === outcome.instrument);
  if (meter === undefined || meter.kind === 'potential') return 'either way';
  const looksDrier = apart_pct < 0;
  const drierIsBetter = (outcome.better === 'lower') === (directionOf(facts.trial, meter) === 'with-moisture');
  return looksDrier === drierIsBetter ? 'towards the claim' : 'away from the claim';
}

function ofWalls({ trial, sides }: Facts) {
  return saltsOfWalls(placedSamples(trial, sides));
}
