import { present } from '../../plain/present.js';
import type { ListedWall, PlannedCosts, PlanningKeys, StatedSpreads } from '../../trial/planning.js';
import { isOfRealSize } from '../cells/number-cell.js';
import { alternatives } from '../quoted.js';
import type { NamedArm } from './findings.js';
import {
  choiceOf,
  dayOf,
  fieldsOf,
  type JsonFields,
  type JsonPlace,
  listOf,
  numberOf,
  optionalTextOf,
  refuse,
  textOf,
} from './json-fields.js';

const designs = ['complete', 'pairs', 'blocks', 'houses', 'two-walls'] as const;

const keys = [
  ...['design', 'walls', 'list', 'perArm', 'wallsPerHouse', 'stations', 'heights_mm', 'visitsBefore', 'visitsAfter'],
  ...['spreads', 'pilot', 'autocorrelation', 'correlation', 'measurement', 'dropOut', 'missedVisits', 'effect'],
  ...['chance', 'costs'],
  ...['firstDay', 'thickness_mm', 'dryDensity_kg_m3', 'pressure_pa', 'dampTop_mm'],
];

/** Beyond, a number is a slip of the hand. */
const mostCount = 5000;

const isCount = (value: number) => Number.isSafeInteger(value) && value >= 1 && value <= mostCount;
const isAtLeastNothing = (value: number) => value >= 0 && isOfRealSize(value);
const isPositive = (value: number) => value > 0 && isOfRealSize(value);

/**
 * What the plan says of the trial's size. Whether the numbers allow a trial is seen here too: fewer walls than arms, a block without two
 * walls, and walls that do not come out even are problems at their keys.
 */
export function readPlanning(
  root: JsonFields,
  arms: readonly NamedArm[] | undefined,
  margin: number | undefined,
): PlanningKeys | undefined {
  const place = root.get('planning');
  const fields = place && fieldsOf(place, keys);
  if (place === undefined || fields === undefined) return undefined;
  const get = (key: string) => fields.get(key);
  const count = (what: string) => `${what}, a whole number from 1 to ${mostCount}`;
  const counted = (key: string, what: string) => numberOf(get(key), count(what), isCount);
  const neededCount = (key: string, what: string) => numberOf(fields.need(key, count(what)), count(what), isCount);
  const amount = (key: string, what: string) => numberOf(get(key), what, isPositive);

  const design = choiceOf(fields.need('design', alternatives(designs)), designs);
  const list = readList(get('list'));
  const walls =
    list === undefined
      ? neededCount('walls', 'how many walls there are in all arms together')
      : (counted('walls', 'how many walls there are in all arms together') ?? list.length);
  const perArm = listOf(get('perArm'), 'a list with a number for each arm')?.map(
    (entry) => numberOf(entry, count('walls or houses of that arm'), isCount) ?? 0,
  );
  const heights = listOf(get('heights_mm'), 'a list of heights in mm')?.map(
    (entry) => numberOf(entry, 'a height in mm, 0 or more', isAtLeastNothing) ?? 0,
  );
  const stations = counted('stations', 'places on each wall') ?? heights?.length;
  if (stations === undefined && get('stations') === undefined) fields.need('stations', count('places on each wall'));
  const correlationExpected = 'a correlation from -1 to 1';
  const autocorrelation = numberOf(
    get('autocorrelation'),
    'a correlation above -1 and below 1',
    (r) => Math.abs(r) < 1,
  );
  const correlation = numberOf(get('correlation'), correlationExpected, (r) => Math.abs(r) <= 1);
  const dropOut = numberOf(get('dropOut'), 'the share of walls lost, from 0 to below 1', (p) => p >= 0 && p < 1);
  const missedAt = get('missedVisits');
  const missedVisits = numberOf(missedAt, 'the share of visits missed, from 0 to below 1', (p) => p >= 0 && p < 1);
  if (missedAt !== undefined && (missedVisits ?? 0) > 0 && design === 'two-walls')
    refuse(missedAt, 'of two walls the visits on which both are read, as visitsBefore and visitsAfter');
  const chance = numberOf(get('chance'), 'a chance between 0.5 and 1, such as 0.8', (p) => p > 0.5 && p < 1);
  const effectPlace = get('effect');
  const effect = numberOf(effectPlace, 'the true effect to be found, above 0, in the unit of the outcome', isPositive);
  if (effectPlace !== undefined && effect !== undefined && margin !== undefined && effect <= margin)
    refuse(effectPlace, `an effect beyond the margin of ${margin}: no number of walls finds another worthwhile`);
  const spreads = readSpreads(get('spreads'));
  const pilot = textOf(get('pilot'), 'the path of a trial folder, or bundled: and the name of a bundled trial');
  if (get('spreads') === undefined && get('pilot') === undefined)
    refuse(place, 'spreads, or a pilot from which they are taken', { found: 'no key spreads and no key pilot' });
  const planning = {
    design,
    walls,
    stations,
    visitsBefore: neededCount('visitsBefore', 'visits before the treatment'),
    visitsAfter: neededCount('visitsAfter', 'visits after the treatment'),
    autocorrelation: autocorrelation ?? 0,
    measurement:
      numberOf(get('measurement'), 'the standard uncertainty of a reading, 0 or more', isAtLeastNothing) ?? 0,
    dropOut: dropOut ?? 0,
    missedVisits: missedVisits ?? 0,
    chance: chance ?? 0.8,
    ...optional({
      ...{ list, perArm, heights_mm: heights, spreads, pilot, correlation, effect },
      wallsPerHouse: counted('wallsPerHouse', 'walls in a house'),
      costs: readCosts(get('costs')),
      firstDay: dayOf(get('firstDay')),
      thickness_mm: amount('thickness_mm', 'the thickness of the walls in mm, above 0'),
      dryDensity_kg_m3: amount('dryDensity_kg_m3', 'the dry density of the masonry in kg/m³, above 0'),
      pressure_pa: amount('pressure_pa', 'the vapour pressure difference between wall and air in Pa, above 0'),
      dampTop_mm: amount('dampTop_mm', 'how high the damp stands in mm, above 0'),
    }),
  } as PlanningKeys;
  checkNumbers(fields, planning, arms);
  return planning;
}

function optional<Fields extends object>(fields: Fields): Partial<Fields> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<Fields>;
}

/** What each kind of design needs of its numbers. */
function checkNumbers(fields: JsonFields, planning: PlanningKeys, arms: readonly NamedArm[] | undefined): void {
  const { design, walls, perArm, list, wallsPerHouse } = planning;
  if (design === undefined || walls === undefined || arms === undefined) return;
  const at = (key: string) => fields.get(key) ?? fields.place;
  const wallsAt = at(fields.get('walls') === undefined ? 'list' : 'walls');
  if (list !== undefined && list.length !== walls)
    refuse(at('walls'), `${list.length}, as many as the list names`, { found: `${walls} walls` });
  if (design === 'two-walls') {
    if (walls !== 2) refuse(wallsAt, '2, as the design says', { found: `${walls} walls` });
    return;
  }
  if (walls < arms.length) {
    refuse(wallsAt, `a wall for each of the ${arms.length} arms at the least`, { found: `${walls} walls` });
    return;
  }
  if (perArm !== undefined && perArm.length !== arms.length) {
    refuse(at('perArm'), `a number for each of the ${arms.length} arms`, { found: `${perArm.length} numbers` });
    return;
  }
  const counts = perArm ?? arms.map(() => 1);
  const once = counts.reduce((sum, one) => sum + one, 0);
  switch (design) {
    case 'complete': {
      const isUneven = perArm === undefined ? walls % arms.length !== 0 : walls !== once;
      const expected =
        perArm === undefined ? `a multiple of the ${arms.length} arms, or perArm` : `${once}, as perArm adds up to`;
      if (isUneven) refuse(wallsAt, expected, { found: `${walls} walls` });
      return;
    }
    case 'pairs':
      if (arms.length !== 2 || once !== 2)
        refuse(at('design'), 'blocks where there are other than two arms with one wall each', { found: 'pairs' });
      checkGroups(wallsAt, { walls, inGroup: 2, name: 'pair' }, list, ({ block }) => block);
      return;
    case 'blocks':
      checkGroups(wallsAt, { walls, inGroup: once, name: 'block' }, list, ({ block }) => block);
      return;
    case 'houses': {
      const inHouse = wallsPerHouse ?? 1;
      const houses = walls / inHouse;
      const isUneven = perArm === undefined ? houses % arms.length !== 0 : houses !== once;
      if (isUneven)
        refuse(wallsAt, `${inHouse} walls in each house, and as many houses as the arms need`, {
          found: `${walls} walls`,
        });
      checkGroups(wallsAt, { walls, inGroup: inHouse, name: 'house' }, list, ({ site }) => site);
    }
  }
}

function checkGroups(
  place: JsonPlace,
  { walls, inGroup: size, name }: { readonly walls: number; readonly inGroup: number; readonly name: string },
  list: readonly ListedWall[] | undefined,
  groupOf: (wall: ListedWall) => string | undefined,
): void {
  if (walls % size !== 0) {
    refuse(place, `a multiple of ${size}, the walls in a ${name}`, { found: `${walls} walls` });
    return;
  }
  if (list === undefined) return;
  const sizes = new Map<string, number>();
  for (const wall of list) {
    const group = groupOf(wall);
    if (group === undefined) {
      refuse(place, `a ${name === 'house' ? 'site' : 'block'} of every wall`, { found: `${wall.wall} without one` });
      return;
    }
    sizes.set(group, (sizes.get(group) ?? 0) + 1);
  }
  for (const [group, found] of sizes)
    if (found !== size)
      refuse(place, `${size} walls in every ${name}`, {
        found: `${found === 1 ? '1 wall' : `${found} walls`} in ${group}`,
      });
}

function readList(place: JsonPlace | undefined): readonly ListedWall[] | undefined {
  const names = new Set<string>();
  return listOf(place, 'a list of walls')?.flatMap((entry) => {
    const fields = fieldsOf(entry, ['wall', 'block', 'site', 'before']);
    const wall = textOf(fields?.need('wall', 'the name of the wall'), 'the name of the wall');
    if (fields === undefined || wall === undefined) return [];
    if (names.has(wall)) refuse(entry, 'each wall once', { found: `${wall} twice` });
    names.add(wall);
    const block = optionalTextOf(fields.get('block'), 'the pair or block');
    const site = optionalTextOf(fields.get('site'), 'the house');
    const before = numberOf(fields.get('before'), 'what the wall was read at before', isOfRealSize);
    return [
      {
        wall,
        ...(block === '' ? {} : { block }),
        ...(site === '' ? {} : { site }),
        ...present({ before }),
      },
    ];
  });
}

function readSpreads(place: JsonPlace | undefined): StatedSpreads | undefined {
  const fields = place && fieldsOf(place, ['walls', 'stations', 'visits', 'readings', 'source']);
  if (fields === undefined) return undefined;
  const expected = 'a standard deviation of 0 or more, in the unit of the outcome';
  const walls = numberOf(fields.need('walls', expected), expected, isAtLeastNothing);
  const rest = (key: string) => numberOf(fields.get(key), expected, isAtLeastNothing) ?? 0;
  const [stations, visits, readings] = [rest('stations'), rest('visits'), rest('readings')];
  const source = optionalTextOf(fields.get('source'), 'a text: where the spreads come from');
  if (walls === undefined) return undefined;
  if (walls + stations + visits + readings === 0)
    refuse(fields.place, 'walls that differ by themselves', { found: 'spreads that are all 0' });
  return { walls, stations, visits, readings, ...(source === '' ? {} : { source }) };
}

function readCosts(place: JsonPlace | undefined): PlannedCosts | undefined {
  const fields = place && fieldsOf(place, ['wall', 'core', 'visit', 'month', 'currency']);
  if (fields === undefined) return undefined;
  const cost = (key: string) => numberOf(fields.get(key), 'what it costs, 0 or more', isAtLeastNothing) ?? 0;
  const currency = optionalTextOf(fields.get('currency'), 'the currency');
  return { wall: cost('wall'), core: cost('core'), visit: cost('visit'), month: cost('month'), currency };
}
