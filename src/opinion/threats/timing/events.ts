import type { Side } from '../../../analysis/index.js';
import { limits } from '../../../findings/limits.js';
import { isoDay } from '../../../plain/days.js';
import { groupBy } from '../../../plain/group-by.js';
import { type DiaryEvent, type EventKind, type Trial, type Windows, windowsOf } from '../../../trial/index.js';
import { listInWords } from '../../../words/quantity.js';
import { allocatedTo, type Facts } from '../facts.js';
import { couldNotLook, found, notFound, type Search } from '../threat.js';

/** Events that can move the moisture, or the reading of it; `installed` is the treatment; an arm that became known and work on plaster have entries of their own. */
const movesMoisture: Readonly<Record<EventKind, boolean>> = {
  installed: false,
  unblinded: false,
  heating: true,
  ventilation: true,
  'plaster-stripped': false,
  replastered: false,
  leak: true,
  flood: true,
  'sensor-moved': true,
  'instrument-changed': true,
  other: true,
};

export const eventInOneArm: Search = {
  code: 'event-in-one-arm',
  domain: 'departures-and-timing',
  name: 'Something else happened to one arm',
  lookedFor: 'works, heating, leaks or the like struck the walls of one arm alone',
  direction: 'either way',
  remedy: 'Keep works, heating and airing alike in both arms, or give up the walls where they were not.',
  look: ({ facts }) => {
    if (facts.trial.events.length === 0)
      return couldNotLook(
        '`diary.csv`, also where nothing happened (one `other` row that says so)',
        'There is no diary.',
      );
    const lopsided = [...eventsByKind(facts)].flatMap(([kind, events]) => {
      const struck = (side: Side) =>
        new Set(events.flatMap(({ wall }) => (wall !== undefined && facts.sides.get(wall) === side ? [wall] : [])));
      const [treated, untreated] = [struck('treated'), struck('untreated')];
      if (events.some(({ wall }) => wall === undefined) || (treated.size === 0) === (untreated.size === 0)) return [];
      const side: Side = treated.size > 0 ? 'treated' : 'untreated';
      return [{ kind, side, walls: [...(side === 'treated' ? treated : untreated)], days: daysOf(events) }];
    });
    if (lopsided.length === 0) return notFound('The diary notes no event that struck one arm alone.');
    const isSerious = lopsided.some(
      ({ side, walls }) => walls.length / allocatedTo(facts, side) >= limits.struckShare.value,
    );
    const stories = lopsided.map(
      ({ kind, side, walls, days }) =>
        `${kind} at ${walls.length} of ${allocatedTo(facts, side)} ${side} walls (${listInWords(walls)}, ${days}) and at no ${side === 'treated' ? 'untreated' : 'treated'} wall`,
    );
    return found(isSerious ? 'serious' : 'minor', `The diary notes ${stories.join('; ')}.`);
  },
};

export const instrumentChanged: Search = {
  code: 'instrument-changed',
  domain: 'measurement',
  name: 'Another instrument after than before',
  lookedFor: 'the diary notes a changed instrument',
  direction: 'either way',
  remedy: 'Keep the same instrument throughout, or read every wall with both on the day of the change.',
  look: ({ facts }) => {
    const events = (eventsByKind(facts).get('instrument-changed') ?? []).filter(
      ({ wall }) => wall === undefined || facts.sides.has(wall),
    );
    if (events.length === 0) return undefined;
    return found(
      'minor',
      `The diary notes a changed instrument between the start of the before and the end of the after window (${daysOf(events)}), so before and after were not all read alike.`,
    );
  },
};

/** Of the compared walls, while the trial ran: from the start of a wall’s own before window to the end of its own after window. */
function eventsByKind({ trial, sides }: Facts): ReadonlyMap<EventKind, readonly DiaryEvent[]> {
  const runOf = runSorter(trial, sides);
  return groupBy(trial.events, ({ kind, wall, date }) => {
    const isCompared = wall === undefined || sides.has(wall);
    return isCompared && runOf(wall, isoDay(date)) && movesMoisture[kind] ? kind : undefined;
  });
}

/** Whether a day lies in the trial of a wall or, of what struck them all, in that of any. */
function runSorter(trial: Trial, sides: Facts['sides']): (wall: string | undefined, day: string) => boolean {
  const runs = new Map([...sides.keys()].map((wall) => [wall, windowsOf(trial, wall)]));
  const isIn = (windows: Windows | undefined, day: string) =>
    windows === undefined || (day >= windows.before.from && day <= windows.after.to);
  return (wall, day) =>
    wall === undefined ? [...runs.values()].some((windows) => isIn(windows, day)) : isIn(runs.get(wall), day);
}

function daysOf(events: readonly DiaryEvent[]): string {
  return listInWords([...new Set(events.map(({ date }) => isoDay(date)))].sort());
}
