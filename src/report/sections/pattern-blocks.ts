import type { HygroscopicProfile } from '../../findings/cores/cores-part.js';
import type { HeightPattern, HeightShape, Possibility } from '../../moisture/index.js';
import { groupBy } from '../../plain/group-by.js';
import { listInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted } from '../document.js';
import { causeNames, causeSignInWords, causesCaution, furtherLooks } from '../words/cause-in-words.js';

const shapes: Readonly<Record<HeightShape, string>> = {
  falling: 'falls with height',
  rising: 'rises with height',
  flat: 'hardly differs with height',
  peaked: 'is highest part way up',
  undecided: 'goes down and up again over height, so that it is given no shape',
};

function shapeInWords({ shape, because }: Pick<HeightPattern, 'shape' | 'because'>): string {
  return because === 'hidden-by-uncertainty'
    ? 'differs too little between heights, for the spread between walls, to show a shape'
    : shapes[shape];
}

type Shaped = HygroscopicProfile & { readonly pattern: NonNullable<HygroscopicProfile['pattern']> };

/** The shapes by arm and window, and what fits them, each cause once. */
export function patternBlocks(profiles: readonly HygroscopicProfile[]): readonly Block[] {
  const shaped = profiles.flatMap((profile): Shaped[] =>
    profile.pattern === undefined ? [] : [{ ...profile, pattern: profile.pattern }],
  );
  const [first] = shaped;
  if (first === undefined) return [];
  const causes = causeLines(shaped);
  return [
    { kind: 'list', items: shapeLines(shaped) },
    ...(causes.length === 0
      ? []
      : [
          paragraph('What could make such patterns, and what would distinguish it:'),
          { kind: 'list' as const, items: causes },
        ]),
    paragraph(`${causesCaution} The rules by which a pattern is named are our own convention.`),
  ];
}

/** Before and after in one line where they are alike. */
function shapeLines(shaped: readonly Shaped[]): readonly Line[] {
  const wording = ({ pattern }: Shaped) =>
    `: the excess ${shapeInWords(pattern.excess)}; the hygroscopic part ${shapeInWords(pattern.hygroscopic)}.`;
  const alike = groupBy(shaped, (each) => `${each.arm}\u0000${wording(each)}`);
  return [...alike.values()].flatMap((group): Line[] => {
    const [one] = group;
    if (one === undefined) return [];
    return [[quoted(one.arm), `, ${listInWords(group.map(({ window }) => window))}${wording(one)}`]];
  });
}

function causeLines(shaped: readonly Shaped[]): readonly Line[] {
  const all = shaped.flatMap(({ arm, window, pattern }) =>
    pattern.possibilities.map((each): CauseOfArm => ({ ...each, arm, window })),
  );
  return [...groupBy(all, ({ cause }) => cause).values()].flatMap((own): Line[] => {
    const [one] = own;
    return one === undefined ? [] : [causeLine(one, own)];
  });
}

type CauseOfArm = Possibility & Pick<HygroscopicProfile, 'arm' | 'window'>;

function causeLine({ cause }: Possibility, own: readonly CauseOfArm[]): Line {
  const reasons = [...groupBy(own, ({ because }) => causeSignInWords(because))].flatMap(([because, each], at) => {
    const named = [...groupBy(each, ({ arm }) => arm)].flatMap(([arm, windows], place) => [
      ...(place === 0 ? [] : [', ']),
      quoted(arm),
      // Only where the windows of the arm have different reasons.
      ...(windows.length < own.filter((one) => one.arm === arm).length
        ? [` ${listInWords(windows.map(({ window }) => window))}`]
        : []),
    ]);
    return [at === 0 ? ' ' : '; ', `${because} (`, ...named, ')'];
  });
  return [
    { kind: 'strong', text: causeNames[cause] },
    ':',
    ...reasons,
    `. To distinguish it, look at: ${furtherLooks[cause]}.`,
  ];
}
