import type { Primary, WallChange } from '../analysis/index.js';
import { mean } from '../statistics/index.js';
import type { Protocol } from '../trial/index.js';
import type { Evidence, VerdictCode, Weakness } from './opinion.js';
import { decimalsOf, intervalInWords, movementInWords } from './words/movement.js';

type Weighed = Exclude<Evidence, 'none'>;

/** What the verdict may claim of the treatment, by how firmly the evidence stands. */
const leads: Readonly<Record<Exclude<VerdictCode, 'not-answerable'>, Readonly<Record<Weighed, string>>>> = {
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
    firm: 'This trial cannot tell a worthwhile difference from none.',
    fair: 'This trial cannot tell a worthwhile difference from none.',
    shaky: 'This trial cannot tell a worthwhile difference from none.',
  },
};

/** The same of two walls, of which a series tells what they did and nothing tells why. */
const leadsOfTwoWalls: Readonly<Record<Exclude<VerdictCode, 'not-answerable'>, string>> = {
  worthwhile:
    'Of these two walls only: the treated one did better by a worthwhile amount; whether through the treatment or through whatever else came to set it apart, two walls cannot tell.',
  'some-effect':
    'Of these two walls only: the treated one did better, perhaps not by a worthwhile amount; whether through the treatment or through whatever else came to set it apart, two walls cannot tell.',
  'smaller-than-worthwhile':
    'Of these two walls only: the treated one did a little better, by less than would be worthwhile; whether through the treatment or through whatever else came to set it apart, two walls cannot tell.',
  'no-worthwhile-effect':
    'Of these two walls only: the treated one did not do better by a worthwhile amount; whether something else hid a difference, two walls cannot tell.',
  harmful:
    'Of these two walls only: the treated one did worse than the other; whether through the treatment or through whatever else came to set it apart, two walls cannot tell.',
  undecided: 'Of these two walls only: even here a worthwhile difference cannot be told from none.',
};

const stances: Readonly<Record<Exclude<VerdictCode, 'not-answerable'>, string>> = {
  worthwhile: 'all of it beyond',
  'some-effect': 'which reaches from below to beyond',
  'smaller-than-worthwhile': 'all of it short of',
  'no-worthwhile-effect': 'which holds no difference at all and stays short of',
  harmful: 'all of it on the wrong side, whatever one makes of',
  undecided: 'which holds both no difference at all and',
};

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
  if (protocol.margin === undefined) return unanswerableSentence(facts);
  const isOfTwo = primary.method === 'paired-series';
  const walls = isOfTwo ? 'wall' : 'walls';
  return [
    isOfTwo ? leadsOfTwoWalls[code] : leads[code][evidence],
    `Against the untreated ${walls} the ${quantity} of the treated ${walls} ${movementInWords(estimate, unit, decimalsOf(interval))}`,
    `(${intervalInWords(interval)}, ${stances[code]} the ${protocol.margin} ${unit} that the plan calls worthwhile).`,
  ].join(' ');
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
  const movements = (['treated', 'untreated'] as const).flatMap((side) => {
    const changes = walls.filter((wall) => wall.side === side).map(({ change }) => change);
    if (changes.length === 0) return [];
    const whose = changes.length === 1 ? `${side} wall` : `${changes.length} ${side} walls`;
    return [`that of the ${whose} ${movementInWords(mean(changes), outcome.unit)}`];
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
