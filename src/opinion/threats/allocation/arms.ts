import { compareWalls, type Side } from '../../../analysis/index.js';
import { limits } from '../../../findings/limits.js';
import { present } from '../../../plain/present.js';
import { mean } from '../../../statistics/index.js';
import { countInWords, listInWords, numberInWords } from '../../../words/quantity.js';
import { comparedWalls, type Facts, isRandomised } from '../facts.js';
import { found, notFound, type Search, silent } from '../threat.js';
import { alarmOf } from '../threat-words.js';

export const armsPooled: Search = {
  code: 'arms-pooled',
  domain: 'allocation',
  name: 'Several treatments taken together',
  lookedFor: 'several treatments are pooled without a word in the plan',
  direction: 'either way',
  remedy: 'Name in the plan which treatment is compared with which untreated walls (`compare`).',
  look: ({ facts: { trial, sides } }) => {
    const { arms, compare } = trial.protocol;
    const treated = arms.filter(({ role }) => role === 'treated').map(({ arm }) => arm);
    if (treated.length < 2) return undefined;
    const compared = [...new Set(trial.walls.flatMap(({ wall, arm }) => (sides.get(wall) === 'treated' ? [arm] : [])))];
    if (compare !== undefined)
      return notFound(
        `The plan compares ${listInWords(compared)} and leaves out ${countInWords(treated.length - compared.length, 'other treatment')}.`,
      );
    return found(
      'serious',
      `${countInWords(treated.length, 'treatment')} (${listInWords(treated)}) are taken together, and the plan does not say so. A treatment that works can lend its result to one that does not.`,
    );
  },
};

/** What is compared between the arms, in words. */
interface Kind {
  readonly what: string;
  readonly of: (wall: ReturnType<typeof comparedWalls>[number]) => string | undefined;
}

const kinds: readonly Kind[] = [
  { what: 'material', of: ({ material }) => plain(material) },
  { what: 'exposure', of: ({ exposure }) => plain(exposure) },
];

const sizes = [
  { what: 'thickness', unit: 'mm', of: (wall: ReturnType<typeof comparedWalls>[number]) => wall.thickness_mm },
  { what: 'dry density', unit: 'kg/m³', of: (wall: ReturnType<typeof comparedWalls>[number]) => wall.dryDensity_kg_m3 },
] as const;

function plain(text: string | undefined): string | undefined {
  const word = text?.trim().toLowerCase();
  return word === '' ? undefined : word;
}

export const wallsUnlike: Search = {
  code: 'walls-unlike',
  domain: 'allocation',
  name: 'Arms of unlike walls',
  lookedFor: 'the arms differ in material, thickness, density or exposure',
  direction: 'either way',
  remedy: 'Pair or block like walls, and randomise inside.',
  restsOn: ['walls'],
  look: ({ facts }) => {
    const seen = [
      ...kinds.flatMap((kind) => kindsApart(facts, kind)),
      ...sizes.flatMap((size) => sizesApart(facts, size)),
    ];
    if (seen.length === 0) return undefined;
    const apart = seen.filter(({ seriousness }) => seriousness !== undefined);
    const text = (apart.length > 0 ? apart : seen).map((one) => one.text).join(' ');
    if (apart.length === 0) return notFound(text);
    return found(apart.some(({ seriousness }) => seriousness === 'serious') ? 'serious' : 'minor', text);
  },
};

interface Apart {
  readonly text: string;
  readonly seriousness?: 'minor' | 'serious';
}

function kindsApart(facts: Facts, { what, of }: Kind): readonly Apart[] {
  const walls = comparedWalls(facts);
  const count = (side: Side) => {
    const counts = new Map<string, number>();
    for (const wall of walls) {
      const kind = wall.side === side ? of(wall) : undefined;
      if (kind !== undefined) counts.set(kind, (counts.get(kind) ?? 0) + 1);
    }
    return counts;
  };
  const [treated, untreated] = [count('treated'), count('untreated')];
  const [all, others] = [total(treated), total(untreated)];
  if (all === 0 || others === 0) return [];
  const names = [...new Set([...treated.keys(), ...untreated.keys()])];
  const shareOf = (counts: ReadonlyMap<string, number>, name: string, of: number) => (counts.get(name) ?? 0) / of;
  // Half the sum of differences of shares: the share of walls of one arm that has no counterpart in the other.
  const unmatched = names.reduce(
    (sum, name) => sum + Math.abs(shareOf(treated, name, all) - shareOf(untreated, name, others)) / 2,
    0,
  );
  const listed = (counts: ReadonlyMap<string, number>) =>
    listInWords([...counts].map(([name, number]) => `${name} ${number}`));
  const text =
    names.length === 1
      ? `All walls are of one ${what}.`
      : `Walls by ${what}: treated ${listed(treated)}; untreated ${listed(untreated)}.`;
  // Arms with nothing in common are unlike however few walls they have; chance alone seldom goes half of that way.
  const isDisjoint = unmatched > 1 - 1e-9 && Math.min(all, others) > 1;
  const isApart = isDisjoint || (!isRandomised(facts) && unmatched >= limits.unlikeShare.value);
  return [{ text, ...(isApart ? { seriousness: 'serious' as const } : {}) }];
}

function total(counts: ReadonlyMap<string, number>): number {
  return [...counts.values()].reduce((sum, one) => sum + one, 0);
}

function sizesApart(facts: Facts, { what, unit, of }: (typeof sizes)[number]): readonly Apart[] {
  const walls = comparedWalls(facts).flatMap((wall) => {
    const value = of(wall);
    return value === undefined
      ? []
      : [{ wall: wall.wall, arm: wall.arm, side: wall.side, block: wall.block ?? '', value }];
  });
  const on = (side: Side) => walls.filter((wall) => wall.side === side).map(({ value }) => value);
  const [treated, untreated] = [on('treated'), on('untreated')];
  if (treated.length === 0 || untreated.length === 0) return [];
  const means = [mean(treated), mean(untreated)] as const;
  const ratio = Math.max(...means) / Math.min(...means);
  const text = `Mean ${what}: treated ${numberInWords(means[0], 0)} ${unit}, untreated ${numberInWords(means[1], 0)} ${unit}.`;
  const isFar = ratio >= limits.unlikeRatio.value;
  const isSeparate =
    Math.min(treated.length, untreated.length) > 1 &&
    (Math.max(...treated) < Math.min(...untreated) || Math.max(...untreated) < Math.min(...treated));
  if (isFar && (isSeparate || !isRandomised(facts))) return [{ text, seriousness: 'serious' }];
  const answer = compareWalls(walls, {
    id: 'size',
    quantity: what,
    unit,
    level: facts.trial.protocol.confidence,
    scale: 'difference',
  });
  const alarm = isFar ? alarmOf(answer) : undefined;
  return [{ text, ...present({ seriousness: alarm }) }];
}

export const wallsNotDescribed: Search = {
  code: 'walls-not-described',
  domain: 'allocation',
  name: 'What the walls are',
  lookedFor: 'the folder says of each wall where it stands, of what it is and how thick',
  direction: 'either way',
  remedy: 'Write down site, material and thickness of every wall before the treatment.',
  restsOn: ['walls'],
  look: ({ facts }) => {
    const walls = comparedWalls(facts);
    const missing = (
      [
        ['site', (wall) => plain(wall.site)],
        ['material', (wall) => plain(wall.material)],
        ['thickness_mm', (wall) => wall.thickness_mm],
      ] as readonly (readonly [string, (wall: (typeof walls)[number]) => unknown])[]
    ).flatMap(([column, of]) => {
      const known = walls.filter((wall) => of(wall) !== undefined).length;
      return known >= limits.stated.value * walls.length ? [] : [{ column, known }];
    });
    if (missing.length === 0) return notFound(`Site, material and thickness of the ${walls.length} walls are stated.`);
    const counts = missing.map(
      ({ column, known }) => `${column.replace('_mm', '')} of ${known} of ${walls.length} walls`,
    );
    return silent(
      missing.map(({ column }) => `\`${column}\` in \`walls.csv\``).join(', '),
      `The folder states only ${listInWords(counts)}. Walls of one house, or of another material or thickness, may be taken for alike.`,
    );
  },
};
