import { limits } from '../../../findings/limits.js';
import { isoDay } from '../../../plain/days.js';
import { isInWindow } from '../../../trial/index.js';
import { countInWords } from '../../../words/quantity.js';
import { kindOfOutcome } from '../facts.js';
import { found, notFound, type Search, silent } from '../threat.js';

export const outcomeIsAnIndex: Search = {
  code: 'outcome-is-an-index',
  domain: 'measurement',
  name: 'An index, not a weight of water',
  lookedFor: 'the outcome was weighed, or read by a meter that shows an index',
  direction: 'either way',
  remedy: 'Make weighed and dried cores the outcome, and use meters as support only.',
  look: ({ facts }) => {
    const { instrument } = facts.trial.protocol.outcome;
    const kind = kindOfOutcome(facts);
    if (kind === undefined) return undefined;
    if (kind === 'gravimetric') return notFound(`The outcome was weighed (${instrument}).`);
    if (kind === 'carbide')
      return notFound(
        `The outcome was measured with ${instrument} by carbide, and turned from the wet basis to the dry.`,
      );
    if (kind === 'direct') return notFound(`The outcome was read with ${instrument} in its own unit.`);
    const why =
      kind === 'potential'
        ? 'A voltage in masonry follows salts, electrodes and stray currents as well as water, and is an indirect sign at best.'
        : 'A meter shows an index that salts and material move as well as water, and the comparison rests on that index.';
    return found('serious', `The outcome was read with ${instrument} (${kind}) and not by weighing. ${why}`);
  },
};

export const impedanceLow: Search = {
  code: 'impedance-low',
  domain: 'measurement',
  name: 'A voltmeter that loads the wall',
  lookedFor: 'potentials were measured with a meter of low input impedance',
  direction: 'either way',
  remedy: 'Measure potentials with an input impedance of at least 10 MΩ (common practice, no source), and state it.',
  look: ({ facts: { trial } }) => {
    const { instruments, outcome } = trial.protocol;
    const read = new Set(trial.readings.map(({ instrument }) => instrument));
    const potentials = instruments.filter(
      ({ kind, instrument, impedance_mohm }) =>
        kind === 'potential' && read.has(instrument) && impedance_mohm !== undefined,
    );
    const [worst] = potentials.toSorted((one, other) => (one.impedance_mohm ?? 0) - (other.impedance_mohm ?? 0));
    if (worst?.impedance_mohm === undefined) return undefined;
    const measure = { value: worst.impedance_mohm, unit: 'MΩ' };
    const text = `${worst.instrument} has an input impedance of ${worst.impedance_mohm} MΩ`;
    if (worst.impedance_mohm >= limits.impedance_mohm.value) return notFound(`${text}.`, { measure });
    const isOutcome = worst.instrument === outcome.instrument;
    return found(
      isOutcome ? 'serious' : 'minor',
      `${text}, below the ${limits.impedance_mohm.value} MΩ that masonry asks for (common practice, no source). The meter draws current from the electrodes and reads their contact as much as the wall.`,
      { measure },
    );
  },
};

export const meterNotChecked: Search = {
  code: 'meter-not-checked',
  domain: 'measurement',
  name: 'Checks of the meter',
  lookedFor: 'the instrument was checked on blocks that do not change, in both windows',
  direction: 'either way',
  remedy: 'Read a wet and a dry block that do not change on every visit (`checks.csv`).',
  restsOn: ['instrument'],
  look: ({ facts }) => {
    const { windows, outcome } = facts.trial.protocol;
    const kind = kindOfOutcome(facts);
    if (kind === undefined || kind === 'gravimetric' || windows === undefined) return undefined;
    const own = (facts.trial.checks ?? []).filter(
      ({ instrument, value }) => instrument === outcome.instrument && value.kind === 'measured',
    );
    const [before, after] = (['before', 'after'] as const).map(
      (window) => own.filter(({ date }) => isInWindow(isoDay(date), windows[window])).length,
    ) as [number, number];
    const text =
      before + after === 0
        ? `No check of ${outcome.instrument} is on record.`
        : `${countInWords(before, 'check')} of ${outcome.instrument} in the before window and ${after} in the after window.`;
    if (before > 0 && after > 0) return notFound(text);
    return silent(
      `\`checks.csv\` with readings of ${outcome.instrument} on blocks in both windows`,
      `${text} An instrument that moved between the windows, or was read in one arm with another, looks like walls that changed.`,
    );
  },
};
