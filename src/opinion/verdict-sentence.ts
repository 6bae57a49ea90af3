import type { Primary, Side, WallChange } from '../analysis/index.js';
import type { VerdictCode } from '../analysis/verdict-code.js';
import { mean } from '../statistics/index.js';
import type { Protocol } from '../trial/index.js';
import { decimalsOf, intervalInWords, movementInWords } from '../words/movement.js';
import { decimalsWritten, differenceInWords } from '../words/quantity.js';
import type { Evidence, Weakness } from './verdict.js';

type Weighed = Exclude<Evidence, 'none'>;
type Code = Exclude<VerdictCode, 'not-answerable'>;

/** What the verdict may claim of the treatment, by how firmly the evidence stands. */
const leads: Readonly<Record<Code, Readonly<Record<Weighed, string>>>> = {
  worthwhile: {
    firm: 'In this trial the treatment made a worthwhile difference.',
    fair: 'In this trial the treated walls did better by a worthwhile amount, and the treatment is the likeliest reason.',
    shaky:
      'In this trial the treated walls did better by a worthwhile amount, but its weaknesses leave other reasons open than the treatment.',
  },
  'some-effect': {
    firm: 'In this trial the treatment made a difference, which may or may not be large enough to be worthwhile.',
    fair: 'In this trial the treated walls did better, and the treatment is the likeliest reason; whether by a worthwhile amount is open.',
    shaky:
      'In this trial the treated walls did better, perhaps not by a worthwhile amount, and its weaknesses leave other reasons open than the treatment.',
  },
  'smaller-than-worthwhile': {
    firm: 'In this trial the treatment made a difference, but one too small to be worthwhile.',
    fair: 'In this trial the treated walls did a little better, by less than would be worthwhile.',
    shaky:
      'In this trial the treated walls did a little better, by less than would be worthwhile, and its weaknesses leave other reasons open than the treatment.',
  },
  'no-worthwhile-effect': {
    firm: 'In this trial the treatment made no worthwhile difference.',
    fair: 'This trial shows no worthwhile difference, and would probably have shown one.',
    shaky: 'This trial shows no worthwhile difference, but its weaknesses could also have hidden one.',
  },
  harmful: {
    firm: 'In this trial the treatment made the walls worse.',
    fair: 'In this trial the treated walls did worse than the untreated ones, and the treatment is the likeliest reason.',
    shaky:
      'In this trial the treated walls did worse than the untreated ones, but its weaknesses leave other reasons open than the treatment.',
  },
  undecided: {
    firm: 'This trial leaves open whether the treatment makes a worthwhile difference or none.',
    fair: 'This trial leaves open whether the treatment makes a worthwhile difference or none.',
    shaky: 'This trial leaves open whether the treatment makes a worthwhile difference or none.',
  },
};

const ofTwo = 'Of these two walls only:';
const why = 'whether through the treatment or through whatever else set it apart, two walls cannot say.';

/** The same of two walls, of which a series tells what they did and nothing tells why. */
const leadsOfTwoWalls: Readonly<Record<Code, string>> = {
  worthwhile: `${ofTwo} the treated one did better by a worthwhile amount; ${why}`,
  'some-effect': `${ofTwo} the treated one did better, perhaps not by a worthwhile amount; ${why}`,
  'smaller-than-worthwhile': `${ofTwo} the treated one did a little better, by less than would be worthwhile; ${why}`,
  'no-worthwhile-effect': `${ofTwo} the treated one did not do better by a worthwhile amount; whether something else hid a difference, two walls cannot say.`,
  harmful: `${ofTwo} the treated one did worse than the other; ${why}`,
  undecided: `${ofTwo} even here it is open whether there is a worthwhile difference or none.`,
};

/** How the interval lies against zero and the margin; the margin in words follows. */
const stances: Readonly<Record<Code, string>> = {
  worthwhile: 'all of it beyond',
  'some-effect': 'which excludes zero and includes',
  'smaller-than-worthwhile': 'which excludes zero and stays below',
  'no-worthwhile-effect': 'which includes zero and stays below',
  harmful: 'all of it on the wrong side of zero, against',
  undecided: 'which includes zero as well as',
};

const stancesWithoutMargin: Readonly<Record<'some-effect' | 'harmful' | 'undecided', string>> = {
  'some-effect': 'which excludes zero',
  harmful: 'all of it on the wrong side of zero',
  undecided: 'which includes zero',
};

const noMargin = 'Whether that is worth paying for cannot be said: the plan states no margin.';

export interface VerdictFacts {
  readonly code: VerdictCode;
  readonly evidence: Evidence;
  readonly protocol: Protocol;
  readonly primary: Primary;
  readonly walls: readonly WallChange[];
  readonly weaknesses: readonly Weakness[];
}

/**
 * The verdict as a householder understands it: what the trial says, the numbers that say so, and against what.
 *
 * @example verdictSentence(facts) // 'In this trial the treatment made a worthwhile difference. Against the untreated walls …'
 */
export function verdictSentence(facts: VerdictFacts): string {
  const { code, evidence, primary, protocol } = facts;
  if (code === 'not-answerable' || evidence === 'none' || primary.kind === 'not-estimated')
    return unanswerableSentence(facts);
  const { estimate, interval } = primary.estimate;
  const { quantity, unit } = protocol.outcome;
  const isOfTwo = primary.method === 'paired-series';
  const walls = isOfTwo ? 'wall' : 'walls';
  return [
    isOfTwo ? leadsOfTwoWalls[code] : leads[code][evidence],
    `Against the untreated ${walls} the ${quantity} of the treated ${walls} ${movementInWords(estimate, unit, decimalsOf(interval))}`,
    `(${intervalInWords(interval)}, ${stanceInWords(code, protocol)}).`,
    ...(protocol.margin === undefined ? [noMargin] : []),
  ].join(' ');
}

function stanceInWords(code: Code, { margin, outcome }: Protocol): string {
  if (margin !== undefined)
    return `${stances[code]} the ${marginInWords(margin, outcome.unit)} that the plan calls worthwhile`;
  return Object.hasOwn(stancesWithoutMargin, code)
    ? stancesWithoutMargin[code as keyof typeof stancesWithoutMargin]
    : stances[code];
}

/** As the plan writes it: a margin is not rounded. */
function marginInWords(margin: number, unit: string): string {
  return differenceInWords(margin, unit, decimalsWritten(margin));
}

function unanswerableSentence({ weaknesses, walls, protocol, primary }: VerdictFacts): string {
  const fatal = weaknesses.find(({ seriousness }) => seriousness === 'fatal');
  const reasons = fatal === undefined ? [] : [fatal.text];
  return [
    'This trial cannot say whether the treatment works.',
    ...reasons,
    ...whatWasSeen(walls, protocol, primary),
  ].join(' ');
}

/** What the walls did, so that the reader sees that the numbers were looked at. */
function whatWasSeen(walls: readonly WallChange[], { outcome }: Protocol, primary: Primary): readonly string[] {
  const changesOf = (side: Side) => walls.filter((wall) => wall.side === side).map(({ change }) => change);
  const sides = ['treated', 'untreated'] as const;
  // The same digits for both sides, as many as the larger change deserves.
  const largest = Math.max(
    ...sides.flatMap((side) => (changesOf(side).length === 0 ? [] : Math.abs(mean(changesOf(side))))),
  );
  const decimals = largest < 10 ? 2 : 1;
  const movements = sides.flatMap((side) => {
    const changes = changesOf(side);
    if (changes.length === 0) return [];
    const whose = changes.length === 1 ? `${side} wall` : `${changes.length} ${side} walls`;
    return [`that of the ${whose} ${movementInWords(mean(changes), outcome.unit, decimals)}`];
  });
  if (movements.length === 0) return [];
  const average = walls.length > movements.length ? ' on average' : '';
  const caveat =
    movements.length === 2 && primary.kind === 'not-estimated' ? '; no interval can be put on a difference' : '';
  const [first = '', ...rest] = movements;
  return [
    `What was seen: ${[first.replace('that', `the ${outcome.quantity}`), ...rest].join(', ')}${average}${caveat}.`,
  ];
}
