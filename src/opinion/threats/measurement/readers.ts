import type { Side } from '../../../analysis/index.js';
import { limits } from '../../../findings/limits.js';
import { isoDay } from '../../../plain/days.js';
import { type InstrumentKind, windowSorter, windowsOf } from '../../../trial/index.js';
import { listInWords, shareInWords } from '../../../words/quantity.js';
import { type Facts, kindOfOutcome } from '../facts.js';
import type { Grounds } from '../grounds.js';
import { type Finding, found, notFound, type Search, silent } from '../threat.js';
import { unitOf } from '../threat-words.js';
import { turnInWords, type Ways } from '../turn-in-words.js';

const placedByHand: ReadonlySet<InstrumentKind | undefined> = new Set([
  'microwave',
  'resistance',
  'capacitance',
  'potential',
  'direct',
]);

/** Where one pair of hands that was never blinded placed the instrument, no count of other virtues makes up for it. */
function isOneOpenHand({ facts, numbers }: Grounds): boolean {
  const { blinding } = facts.trial.protocol;
  return !blinding.readers && placedByHand.has(kindOfOutcome(facts)) && numbers.known.readers.length < 2;
}

/** A log reads itself: nobody holds a sensor that stays in the wall. */
function isReadByPeople(facts: Facts): boolean {
  return kindOfOutcome(facts) !== 'embedded-sensor';
}

const misread: Ways = {
  flattered: (size) => `If every treated wall’s after reading by such a reader were too good by ${size}`,
  hidden: (size) => `If every treated wall’s after reading by such a reader were too bad by ${size}`,
};

function tippingOf({ facts, numbers }: Grounds): { readonly tipping?: string } {
  const { movesBy } = numbers.knowledge;
  if (movesBy === undefined) return {};
  const { turning } = numbers;
  const unit = unitOf(facts);
  return { tipping: turnInWords({ turning, direction: 'towards the claim', unit, ways: misread, each: 1 / movesBy }) };
}

export const readersKnew: Search = {
  code: 'readers-knew',
  domain: 'measurement',
  name: 'Readers who knew the arm',
  lookedFor: 'after readings were taken by somebody who knew which walls were treated',
  direction: 'towards the claim',
  remedy: 'Have the walls read, and the cores weighed, by people who cannot tell treated from untreated.',
  restsOn: ['readers'],
  look: (grounds): Finding | undefined => {
    const { facts } = grounds;
    const { all, yes, no } = grounds.numbers.known.after;
    if (all === 0 || !isReadByPeople(facts)) return undefined;
    const planned = facts.trial.protocol.blinding.readers;
    const noted = `${yes} of the ${all} after readings compared (${shareInWords(yes, all)}) were taken by a reader who knew the wall’s arm, ${no} by one who did not`;
    const more = { measure: { value: yes / all, unit: 'share of after readings' }, ...tippingOf(grounds) };
    const isBlind = no >= limits.stated.value * all;
    if (planned && yes === 0) return notFound(`The plan kept readers blind; ${noted}.`, more);
    if (planned)
      return found(
        yes / all >= limits.knowing.value ? 'serious' : 'minor',
        `Readers were meant to be blind, but ${noted}.`,
        more,
      );
    const open = `Readers were not blinded: ${noted}.`;
    if (isBlind && yes === 0) return found('minor', open, more);
    return found('serious', `${open} Where a core is drilled or a meter held can follow a hope.`, {
      ...more,
      ...(isOneOpenHand(grounds) ? { evidenceAtBest: 'shaky' as const } : {}),
    });
  },
};

export const readersNotStated: Search = {
  code: 'blinding-not-recorded',
  domain: 'measurement',
  name: 'Who read, and what they knew',
  lookedFor: 'the folder says of each reading who took it and what they knew of the arm',
  direction: 'towards the claim',
  remedy: 'Note at each reading who took it, and whether the reader knew the arm, did not, or was unsure.',
  restsOn: ['readers'],
  look: (grounds) => {
    const { facts, numbers } = grounds;
    const { all, unrecorded } = numbers.known.after;
    const unnamed = numbers.known.readerNotRecorded;
    if (all === 0 || !isReadByPeople(facts)) return undefined;
    const text = `Of ${all} after readings compared, ${all - unnamed} name their reader and ${all - unrecorded} note what the reader knew.`;
    const isStated = (count: number) => all - count >= limits.stated.value * all;
    if (isStated(unnamed) && isStated(unrecorded)) return notFound(text);
    const needs = [...(isStated(unnamed) ? [] : ['`reader`']), ...(isStated(unrecorded) ? [] : ['`knew_arm`'])].join(
      ' and ',
    );
    return silent(
      `${needs} in \`cores.csv\` or \`readings.csv\``,
      text,
      isOneOpenHand(grounds) ? { evidenceAtBest: 'shaky' } : {},
    );
  },
};

export const readersUnsure: Search = {
  code: 'knew-unsure',
  domain: 'measurement',
  name: 'Readers who were unsure of the arm',
  lookedFor: 'readers noted that they were unsure of the arm',
  direction: 'towards the claim',
  remedy: 'Ask readers at once what makes them unsure, and take that cue away.',
  restsOn: ['readers'],
  look: ({ facts, numbers }) => {
    const { all, unsure } = numbers.known.after;
    if (all === 0 || !isReadByPeople(facts)) return undefined;
    const text = `${unsure} of the ${all} after readings compared (${shareInWords(unsure, all)}) were taken by a reader who was unsure of the wall’s arm.`;
    const measure = { value: unsure / all, unit: 'share of after readings' };
    if (unsure / all <= limits.unsure.value) return notFound(text, { measure });
    return found(
      unsure / all >= limits.mostlyUnsure.value ? 'serious' : 'minor',
      `${text} Whoever is unsure has a guess, and it may be right.`,
      { measure },
    );
  },
};

export const unblinded: Search = {
  code: 'unblinded-during-trial',
  domain: 'measurement',
  name: 'An arm that became known',
  lookedFor: 'the diary notes that an arm became known before the readings ended',
  direction: 'towards the claim',
  remedy: 'Keep the allocation sealed, and replace a reader who learns it.',
  look: ({ facts: { trial } }) => {
    const { protocol } = trial;
    const lastDay = [protocol.windows, ...trial.walls.map(({ windows }) => windows)]
      .flatMap((windows) => windows?.after.to ?? [])
      .sort()
      .at(-1);
    const endOf = (wall: string | undefined) => (wall === undefined ? lastDay : windowsOf(trial, wall)?.after.to);
    const events = trial.events.filter(({ kind, date, wall }) => {
      const end = endOf(wall);
      return kind === 'unblinded' && (end === undefined || isoDay(date) <= end);
    });
    if (events.length === 0) return undefined;
    const places = events.map(({ date, wall }) => `${wall ?? 'all walls'} on ${isoDay(date)}`);
    return found(
      events.some(({ wall }) => wall === undefined) ? 'serious' : 'minor',
      `The diary notes that an arm became known before the readings ended: ${listInWords(places)}.`,
    );
  },
};

/** Readers by side and window, from the readings that were used. */
function readersOf(facts: Facts, side: Side, window: 'before' | 'after'): readonly string[] {
  const windowOf = windowSorter(facts.trial);
  return facts.used.flatMap((reading) =>
    reading.reader !== undefined &&
    facts.sides.get(reading.wall) === side &&
    windowOf(reading.wall, reading.day) === window
      ? [reading.reader]
      : [],
  );
}

export const readersChanged: Search = {
  code: 'readers-changed',
  domain: 'measurement',
  name: 'Other readers after than before',
  lookedFor: 'the same people read before and after',
  direction: 'either way',
  remedy: 'Have the same people read all walls before and after.',
  restsOn: ['readers'],
  look: (grounds) => {
    const { facts } = grounds;
    const shares = (['treated', 'untreated'] as const).flatMap((side) => {
      const before = new Set(readersOf(facts, side, 'before'));
      const after = readersOf(facts, side, 'after');
      if (before.size === 0 || after.length === 0) return [];
      return [{ side, kept: after.filter((reader) => before.has(reader)).length / after.length }];
    });
    if (shares.length === 0) return undefined;
    const changed = shares.filter(({ kept }) => kept < limits.readersKept.value).map(({ side }) => side);
    if (changed.length === 0) return notFound('Most after readings are by readers who also read before.');
    const names = (window: 'before' | 'after') =>
      listInWords([...new Set(changed.flatMap((side) => readersOf(facts, side, window)))].sort());
    return found(
      changed.length === 2 ? 'minor' : 'serious',
      `The ${changed.join(' and ')} walls were mostly read by other people after (${names('after')}) than before (${names('before')}), and readers differ.`,
    );
  },
};

export const readersDifferByArm: Search = {
  code: 'readers-differ-by-arm',
  domain: 'measurement',
  name: 'Other readers for each arm',
  lookedFor: 'the same people read the walls of both arms',
  direction: 'either way',
  remedy: 'Have each reader read walls of both arms.',
  restsOn: ['readers'],
  look: ({ facts }) => {
    const readers = (side: Side) => new Set([...readersOf(facts, side, 'before'), ...readersOf(facts, side, 'after')]);
    const [treated, untreated] = [readers('treated'), readers('untreated')];
    if (treated.size === 0 || untreated.size === 0) return undefined;
    const both = [...treated].filter((reader) => untreated.has(reader)).sort();
    if (both.length > 0) return notFound(`Walls of both arms were read by ${listInWords(both)}.`);
    return found(
      'serious',
      `Treated walls were read by ${listInWords([...treated])} and untreated walls by ${listInWords([...untreated])}, nobody by both. Readers and treatment cannot be distinguished.`,
    );
  },
};

export const onlyOneReader: Search = {
  code: 'only-one-reader',
  domain: 'measurement',
  name: 'One reader',
  lookedFor: 'one person took all outcome readings with an instrument placed by hand',
  direction: 'either way',
  remedy: 'Have each wall read by two people who do not see each other’s readings.',
  restsOn: ['readers'],
  look: ({ facts }) => {
    const kind = kindOfOutcome(facts);
    if (kind === 'direct' || !placedByHand.has(kind)) return undefined;
    const [reader, ...others] = new Set(facts.used.flatMap((one) => one.reader ?? []));
    if (reader === undefined) return undefined;
    if (others.length > 0) return notFound(`${others.length + 1} people read with the instrument.`);
    return found(
      'minor',
      `One person (${reader}) is named for all outcome readings, taken with an instrument placed by hand. Nothing shows how far the answer depends on that hand.`,
    );
  },
};
