import type { Side } from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { type InstrumentKind, isInWindow } from '../../trial/index.js';
import type { Weakness } from '../opinion.js';
import { listInWords, shareInWords } from '../words/quantity.js';
import type { Facts } from './facts.js';

/** Share of readings by a knowing reader from which the blinding is taken as lost: our convention. */
const blindingLost = 0.1;
/** Share of after readings by readers who also read before, below which the readers have changed: our convention. */
const readersKept = 0.5;

export function readersKnew({ trial, used }: Facts): Weakness | undefined {
  const knowing = used.filter(({ knewArm }) => knewArm === 'yes').length;
  const planned = trial.protocol.blinding.readers;
  const recorded = used.filter(({ knewArm }) => knewArm !== undefined).length;
  if (planned && knowing === 0) return undefined;
  const isLost = !planned || knowing / used.length >= blindingLost;
  const noted =
    recorded === 0
      ? 'none of the outcome readings says what its reader knew'
      : `${knowing} of ${used.length} outcome readings (${shareInWords(knowing, used.length)}) were taken by a reader who knew the wall’s arm`;
  return {
    code: 'readers-knew',
    seriousness: isLost ? 'serious' : 'minor',
    text: planned
      ? `Readers were meant to be blind, but ${noted}.`
      : `Readers were not kept from knowing which walls were treated, and ${noted}: where a core is drilled or a meter held can follow a hope.`,
    remedy: 'Have the walls read, and the cores weighed, by people who cannot tell treated from untreated.',
  };
}

export function blindingNotRecorded({ trial, used }: Facts): Weakness | undefined {
  if (!trial.protocol.blinding.readers || used.length === 0) return undefined;
  const recorded = used.filter(({ knewArm }) => knewArm !== undefined).length;
  if (recorded >= used.length / 2) return undefined;
  return {
    code: 'blinding-not-recorded',
    seriousness: 'minor',
    text: `The plan says that readers were blind, but only ${recorded} of ${used.length} outcome readings note what the reader knew.`,
    remedy: 'Note at each reading whether the reader knew the arm, did not, or was unsure.',
  };
}

export function unblinded({ trial }: Facts): Weakness | undefined {
  const { windows } = trial.protocol;
  const events = trial.events.filter(
    ({ kind, date }) => kind === 'unblinded' && (windows === undefined || date.slice(0, 10) <= windows.after.to),
  );
  if (events.length === 0) return undefined;
  const places = events.map(({ date, wall }) => `${wall ?? 'all walls'} on ${date.slice(0, 10)}`);
  return {
    code: 'unblinded-during-trial',
    seriousness: events.some(({ wall }) => wall === undefined) ? 'serious' : 'minor',
    text: `The diary notes that an arm became known before the readings ended: ${listInWords(places)}.`,
    remedy: 'Keep the allocation sealed, and replace a reader who learns it.',
  };
}

/** Readers by side and window, from the readings that were used. */
function readersOf(facts: Facts, side: Side, window: 'before' | 'after'): readonly string[] {
  const { windows } = facts.trial.protocol;
  if (windows === undefined) return [];
  return facts.used.flatMap((reading: MoistureReading) =>
    reading.reader !== undefined && facts.sides.get(reading.wall) === side && isInWindow(reading.day, windows[window])
      ? [reading.reader]
      : [],
  );
}

export function readersChanged(facts: Facts): Weakness | undefined {
  const keptOn = (side: Side): boolean => {
    const before = new Set(readersOf(facts, side, 'before'));
    const after = readersOf(facts, side, 'after');
    if (before.size === 0 || after.length === 0) return true;
    return after.filter((reader) => before.has(reader)).length / after.length >= readersKept;
  };
  const changed = (['treated', 'untreated'] as const).filter((side) => !keptOn(side));
  if (changed.length === 0) return undefined;
  const names = (window: 'before' | 'after') =>
    listInWords([...new Set(changed.flatMap((side) => readersOf(facts, side, window)))].sort());
  const where = changed.length === 2 ? 'treated and untreated' : `${changed[0]}`;
  return {
    code: 'readers-changed',
    seriousness: changed.length === 2 ? 'minor' : 'serious',
    text: `The ${where} walls were mostly read by other people after (${names('after')}) than before (${names('before')}), and readers differ.`,
    remedy: 'Have the same people read all walls before and after.',
  };
}

export function readersDifferByArm(facts: Facts): Weakness | undefined {
  const readers = (side: Side) => new Set([...readersOf(facts, side, 'before'), ...readersOf(facts, side, 'after')]);
  const [treated, untreated] = [readers('treated'), readers('untreated')];
  if (treated.size === 0 || untreated.size === 0 || [...treated].some((reader) => untreated.has(reader)))
    return undefined;
  return {
    code: 'readers-differ-by-arm',
    seriousness: 'serious',
    text: `Treated walls were read by ${listInWords([...treated])} and untreated walls by ${listInWords([...untreated])}, nobody by both, so readers and treatment cannot be told apart.`,
    remedy: 'Have each reader read walls of both arms.',
  };
}

const heldByHand: ReadonlySet<InstrumentKind | undefined> = new Set([
  'microwave',
  'resistance',
  'capacitance',
  'potential',
]);

export function onlyOneReader({ trial, used }: Facts): Weakness | undefined {
  const { instruments, outcome } = trial.protocol;
  if (!heldByHand.has(instruments.find(({ instrument }) => instrument === outcome.instrument)?.kind)) return undefined;
  const [reader, ...others] = new Set(used.flatMap((reading) => reading.reader ?? []));
  if (reader === undefined || others.length > 0) return undefined;
  return {
    code: 'only-one-reader',
    seriousness: 'minor',
    text: `One person (${reader}) is named for all outcome readings, taken with an instrument held by hand, so that nothing shows how far the answer hangs on that hand.`,
    remedy: 'Have each wall read by two people who do not see each other’s readings.',
  };
}
