import { withSealedSeed } from '../../records/lock/sealed-seed.js';
import type { LockedWall, PlanLock, Protocol, Trial, Wall } from '../../trial/index.js';

/** What a plan decides, part by part: a departure is one of these changed after the plan was sealed. */
const lockedParts = ['margin', 'windows', 'outcome', 'arms', 'walls', 'analysis', 'instruments', 'conduct'] as const;

export type LockedPart = (typeof lockedParts)[number];

/**
 * The part to which each key of a plan belongs. What is `free` decides nothing: words, who paid, and the stated day, beside which
 * the seal has a day of its own.
 */
const partOfKey = {
  ...{ title: 'free', disclosures: 'free', plannedOn: 'free', planning: 'free' },
  ...{ margin: 'margin', marginSource: 'free', passMark: 'margin' },
  windows: 'windows',
  ...{ claim: 'outcome', outcome: 'outcome', secondary: 'outcome' },
  ...{ arms: 'arms', compare: 'arms', allocation: 'arms' },
  ...{ selection: 'walls', screened: 'walls' },
  ...{ confidence: 'analysis', adjustments: 'analysis', calibration: 'analysis', dryBelow: 'analysis' },
  instruments: 'instruments',
  ...{ blinding: 'conduct', treatment: 'conduct', against: 'conduct' },
  ...{ unaffectedAbove_mm: 'conduct', claimedField_v_per_m: 'conduct' },
} as const satisfies Record<keyof Protocol, LockedPart | 'free'>;

/** One thing that is otherwise than it was sealed. */
export interface Departure {
  readonly part: LockedPart;
  /** A key of the plan, or `arm`, `block`, `site`, `windows` of a wall, or `wall` for a wall itself. */
  readonly key: string;
  /** Absent where it is a matter of the plan as a whole. */
  readonly wall?: string;
  /** As in `lock.json`; absent where nothing was sealed. */
  readonly locked?: unknown;
  /** As in the folder; absent where nothing is there. */
  readonly now?: unknown;
}

/**
 * What of a trial is otherwise than its plan was sealed: first the plan, key by key, then the walls.
 *
 * @example departuresFromLock(trial) // []
 */
export function departuresFromLock({
  protocol,
  walls,
  lock,
}: Pick<Trial, 'protocol' | 'walls' | 'lock'>): readonly Departure[] {
  if (lock === undefined) return [];
  return [...ofPlan(lock, protocol), ...ofWalls(lock.walls, walls)];
}

function ofPlan(lock: PlanLock, protocol: Protocol): readonly Departure[] {
  const locked = asStated(withSealedSeed(lock.protocol));
  const now = asStated(withSealedSeed(seedAsLocked(protocol, lock)));
  return (Object.keys(partOfKey) as (keyof Protocol)[]).flatMap((key): readonly Departure[] => {
    const part = partOfKey[key];
    return part === 'free' || isSame(locked[key], now[key]) ? [] : [departure(part, key, locked[key], now[key])];
  });
}

/** The arms of all walls are sealed: a seed that becomes known when a trial is over changes nothing. */
function seedAsLocked(protocol: Protocol, { protocol: { allocation: locked } }: PlanLock): Protocol {
  if (locked.seed !== undefined || locked.seedSha256 !== undefined) return protocol;
  const { seed: _, ...allocation } = protocol.allocation;
  return { ...protocol, allocation };
}

/** Where a pass mark is the margin, the number is what it came to, and none was stated. */
function asStated(protocol: Protocol): Partial<Protocol> {
  const { margin: _, ...plan } = protocol;
  return protocol.passMark?.asMargin === true ? plan : protocol;
}

function ofWalls(locked: readonly LockedWall[], walls: readonly Wall[]): readonly Departure[] {
  const now = new Map(walls.map((wall) => [wall.wall, wall]));
  const names = new Set(locked.map(({ wall }) => wall));
  return [
    ...locked.flatMap((one) => {
      const wall = now.get(one.wall);
      return wall === undefined
        ? [{ ...departure('walls', 'wall', one.wall, undefined), wall: one.wall }]
        : ofWall(one, wall);
    }),
    ...walls.flatMap(({ wall }) => (names.has(wall) ? [] : [{ ...departure('walls', 'wall', undefined, wall), wall }])),
  ];
}

const partOfWall = { arm: 'arms', block: 'arms', site: 'walls', windows: 'windows' } as const;

function ofWall(locked: LockedWall, wall: Wall): readonly Departure[] {
  return (Object.keys(partOfWall) as (keyof typeof partOfWall)[]).flatMap((key) =>
    isSame(locked[key], wall[key])
      ? []
      : [{ ...departure(partOfWall[key], key, locked[key], wall[key]), wall: wall.wall }],
  );
}

function departure(part: LockedPart, key: string, locked: unknown, now: unknown): Departure {
  return { part, key, ...(locked === undefined ? {} : { locked }), ...(now === undefined ? {} : { now }) };
}

/** As JSON, whatever the order of keys. */
function isSame(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  const [own, others] = [Object.entries(one), new Map(Object.entries(other))];
  return own.length === others.size && own.every(([key, value]) => isSame(value, others.get(key)));
}
