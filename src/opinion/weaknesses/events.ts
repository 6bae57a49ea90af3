import type { Side } from '../../analysis/index.js';
import type { DiaryEvent, EventKind } from '../../trial/index.js';
import type { Weakness } from '../opinion.js';
import { listInWords } from '../words/quantity.js';
import { allottedTo, type Facts } from './facts.js';

/** Share of a side's walls from which an event on that side alone is serious: our convention. */
const seriousShare = 0.2;

/** Events that can move the moisture, or the reading of it; `installed` is the treatment and `unblinded` has a weakness of its own. */
const movesMoisture: Readonly<Record<EventKind, boolean>> = {
  installed: false,
  unblinded: false,
  heating: true,
  ventilation: true,
  replastered: true,
  leak: true,
  flood: true,
  'sensor-moved': true,
  'instrument-changed': true,
  other: true,
};

export function eventInOneArm(facts: Facts): Weakness | undefined {
  const lopsided = [...eventsByKind(facts)].flatMap(([kind, events]) => {
    const struck = (side: Side) =>
      new Set(events.flatMap(({ wall }) => (wall !== undefined && facts.sides.get(wall) === side ? [wall] : [])));
    const [treated, untreated] = [struck('treated'), struck('untreated')];
    if (events.some(({ wall }) => wall === undefined) || (treated.size === 0) === (untreated.size === 0)) return [];
    const side: Side = treated.size > 0 ? 'treated' : 'untreated';
    return [
      {
        kind,
        side,
        walls: [...(side === 'treated' ? treated : untreated)],
        days: daysOf(events),
      },
    ];
  });
  if (lopsided.length === 0) return undefined;
  const isSerious = lopsided.some(({ side, walls }) => walls.length / allottedTo(facts, side) >= seriousShare);
  const stories = lopsided.map(
    ({ kind, side, walls, days }) =>
      `${kind} struck ${walls.length} of ${allottedTo(facts, side)} ${side} walls (${listInWords(walls)}, ${days}) and no ${side === 'treated' ? 'untreated' : 'treated'} wall`,
  );
  return {
    code: 'event-in-one-arm',
    seriousness: isSerious ? 'serious' : 'minor',
    text: `According to the diary ${stories.join('; ')}.`,
    remedy: 'Keep works, heating and airing alike in both arms, or give up the walls where they were not.',
  };
}

export function instrumentChanged(facts: Facts): Weakness | undefined {
  const events = (eventsByKind(facts).get('instrument-changed') ?? []).filter(
    ({ wall }) => wall === undefined || facts.sides.has(wall),
  );
  if (events.length === 0) return undefined;
  return {
    code: 'instrument-changed',
    seriousness: 'minor',
    text: `The diary notes a changed instrument between the start of the before and the end of the after window (${daysOf(events)}), so before and after were not all read alike.`,
    remedy: 'Keep the same instrument throughout, or read every wall with both on the day of the change.',
  };
}

function eventsByKind({ trial }: Facts): ReadonlyMap<EventKind, readonly DiaryEvent[]> {
  const { windows } = trial.protocol;
  const byKind = new Map<EventKind, DiaryEvent[]>();
  for (const event of trial.events) {
    const day = event.date.slice(0, 10);
    const isInTrial = windows === undefined || (day >= windows.before.from && day <= windows.after.to);
    if (isInTrial && movesMoisture[event.kind]) byKind.set(event.kind, [...(byKind.get(event.kind) ?? []), event]);
  }
  return byKind;
}

function daysOf(events: readonly DiaryEvent[]): string {
  return listInWords([...new Set(events.map(({ date }) => date.slice(0, 10)))].sort());
}
