import type { Answer, Estimate, RoleBlinding } from '../../analysis/index.js';
import { worstLimit } from '../../analysis/index.js';
import { formatPValue, formatSigned } from '../../charts/format-number.js';
import type { Facts } from '../weaknesses/facts.js';
import { decimalsOf, levelInWords } from '../words/movement.js';
import { countInWords, numberInWords, quantityInWords } from '../words/quantity.js';
import type { Judging, Threat } from './judging.js';

type Numbers = Omit<Judging, 'threats'>;

/** Everything that is looked for, each in words with its number. */
const searches: readonly ((facts: Facts, numbers: Numbers) => Threat | undefined)[] = [
  guessed,
  knowingReaders,
  weighedAndHeld,
  oneUnit,
  lostWalls,
  hiddenCause,
  beforeTreatment,
  outOfReach,
  shamActed,
  unlikeBefore,
  pickedWettest,
  carriedOver,
];

export function findThreats(facts: Facts, numbers: Numbers): readonly Threat[] {
  return searches.flatMap((search) => search(facts, numbers) ?? []);
}

function alphaOf({ trial }: Facts): number {
  return 1 - trial.protocol.confidence;
}

function unitOf({ trial }: Facts): string {
  return trial.protocol.outcome.unit;
}

/** The primary interval's limit nearest zero, where it leaves zero out. */
function nearestLimit({ primary }: Facts): number | undefined {
  return primary.kind === 'estimated' ? worstLimit(primary.estimate.interval) : undefined;
}

const nothingToTurn = 'The interval holds zero already: there is no difference to explain away.';

function toZero(facts: Facts, words: (size: string) => string): string {
  const limit = nearestLimit(facts);
  return limit === undefined ? nothingToTurn : words(quantityInWords(Math.abs(limit), unitOf(facts)));
}

function numbersOf({ estimate, interval, pValue, unit }: Estimate): string {
  const limits = interval
    ? ` (${levelInWords(interval.level)} interval ${formatSigned(interval.lower, decimalsOf(interval))} to ${formatSigned(interval.upper, decimalsOf(interval))}${pValue === undefined ? '' : `, ${formatPValue(pValue)}`})`
    : '';
  return `${formatSigned(estimate, interval ? decimalsOf(interval) : 2)} ${unit}${limits}`;
}

function isSmall(facts: Facts, answer: Answer): boolean {
  return answer.kind === 'estimated' && (answer.estimate.pValue ?? 1) < alphaOf(facts);
}

/** Towards the claim where the difference lies on the better side. */
function pushOf({ trial }: Facts, estimate: number): Threat['direction'] {
  const isBetter = trial.protocol.outcome.better === 'lower' ? estimate < 0 : estimate > 0;
  return isBetter ? 'towards the claim' : 'away from the claim';
}

function guessed(facts: Facts, { blinding }: Numbers): Threat {
  const alpha = alphaOf(facts) / Math.max(1, blinding.length);
  const seen = blinding.filter(({ pValue }) => pValue < alpha);
  const late = blinding.reduce((sum, one) => sum + one.late, 0);
  return {
    code: 'arms-guessed',
    name: 'The arms were guessed',
    fact: blinding.length === 0 ? 'Nobody was asked what they believed.' : blinding.map(guessesInWords).join(' '),
    outcome: blinding.length === 0 ? 'open' : seen.length > 0 ? 'warns' : 'quiet',
    direction: 'towards the claim',
    turn: toZero(facts, (size) => `Those who knew would have to move the difference by ${size}.`),
    inference:
      blinding.length === 0
        ? 'Whether the blind held cannot be told.'
        : `${seen.length > 0 ? `More right guesses than a coin makes (${seen.map(({ role }) => `${role}s`).join(', ')}). They can come from a broken blind, or from a treatment that visibly works.` : 'No more right guesses than a coin makes.'}${late > 0 ? ` ${countInWords(late, 'note')} came after the last reading of the wall, when results may have been known.` : ''}`,
    avoid: 'Ask everybody before the results are seen, and note when and why.',
  };
}

function guessesInWords({ role, guesses, bang, pValue, people }: RoleBlinding): string {
  const sides = (['treated', 'untreated'] as const).flatMap((side) => {
    const { correct, wrong, undecided } = guesses[side];
    const index = bang[side];
    return index === undefined
      ? []
      : [
          `of ${side} walls ${correct} right, ${wrong} wrong, ${undecided} undecided (index ${formatSigned(index.estimate, 2)}, ${formatSigned(index.interval.lower, 2)} to ${formatSigned(index.interval.upper, 2)})`,
        ];
  });
  return `${countInWords(people, role)}: ${sides.join('; ')}; right guesses against a coin ${formatPValue(pValue)}.`;
}

function knowingReaders(facts: Facts, { knowledge }: Numbers): Threat {
  const { counts, contrast, answers, biasToZero } = knowledge;
  const knowing = counts.yes;
  const all = counts.yes + counts.no + counts.unsure + counts.unrecorded;
  const estimate = contrast.kind === 'estimated' ? contrast.estimate : undefined;
  const each = answers.flatMap(({ knew, answer }) =>
    answer.kind === 'estimated' ? [`${knewWords[knew]} ${numbersOf(answer.estimate)}`] : [],
  );
  return {
    code: 'readers-knew',
    name: 'Readers who knew the arm',
    fact: `After readings: ${counts.no} blind, ${counts.unsure} unsure, ${knowing} knowing, ${counts.unrecorded} not noted.${each.length > 1 ? ` Difference by ${each.join('; ')}.` : ''}${estimate ? ` Knowing less blind readings at the same stations, treated against untreated walls: ${numbersOf(estimate)}.` : ''}`,
    outcome: isSmall(facts, contrast) ? 'warns' : estimate || counts.no === all ? 'quiet' : 'open',
    direction: estimate ? pushOf(facts, estimate.estimate) : 'towards the claim',
    turn:
      biasToZero === undefined
        ? nearestLimit(facts) === undefined
          ? nothingToTurn
          : 'No after reading of a treated wall was taken by somebody who knew.'
        : `Each treated wall’s reading by somebody who knew would have to be off by ${quantityInWords(Math.abs(biasToZero), unitOf(facts))}.`,
    inference: isSmall(facts, contrast)
      ? 'Who knew read the treated walls differently from who did not. The blind readings are the ones to believe.'
      : estimate
        ? 'Knowing and blind readers cannot be told apart here.'
        : counts.no === all
          ? 'All after readings are noted as blind; there is nothing to compare.'
          : knowing === all
            ? 'All after readings were taken by somebody who knew; there is nothing blind to compare them with.'
            : 'No stations were read both by somebody who knew and by somebody who did not, so the two cannot be compared.',
    avoid: 'Have walls read by people who cannot tell treated from untreated, and some stations read twice.',
  };
}

const knewWords = { no: 'blind readings', unsure: 'unsure readings', yes: 'knowing readings' } as const;

function weighedAndHeld(facts: Facts, { instruments }: Numbers): Threat | undefined {
  const shown = instruments.filter(({ standardised }) => standardised !== undefined);
  if (shown.length < 2) return undefined;
  const weighed = shown.find(({ sort }) => sort === 'weighed');
  const held = shown.filter(({ sort }) => sort === 'hand-held');
  const apart =
    weighed !== undefined && !isSmall(facts, weighed.answer) && held.some(({ answer }) => isSmall(facts, answer));
  return {
    code: 'weighed-and-held',
    name: 'Weighed against hand-held',
    fact: `Difference in standard deviations of changes: ${shown.map(({ instrument, sort, standardised = 0, answer }) => `${instrument} (${sort}) ${formatSigned(standardised, 2)}${answer.kind === 'estimated' && answer.estimate.pValue !== undefined ? `, ${formatPValue(answer.estimate.pValue)}` : ''}`).join('; ')}.`,
    outcome: apart ? 'warns' : weighed === undefined ? 'open' : 'quiet',
    direction: 'towards the claim',
    turn: 'The verdict rests on the protocol’s outcome alone.',
    inference: apart
      ? 'What is held by hand shows a difference that what is weighed does not.'
      : 'What is weighed and what is held by hand do not tell two stories.',
    avoid: 'Weigh, and keep what is held by hand as company.',
  };
}

function oneUnit(facts: Facts, { leaveOneOut }: Numbers): Threat | undefined {
  const all = leaveOneOut.flatMap(({ left, of, answer }) =>
    answer.kind === 'estimated' ? [{ left, of, estimate: answer.estimate }] : [],
  );
  if (all.length === 0 || facts.primary.kind !== 'estimated') return undefined;
  const sorted = all.toSorted((one, other) => one.estimate.estimate - other.estimate.estimate);
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (least === undefined || most === undefined) return undefined;
  const isClear = nearestLimit(facts) !== undefined;
  const turned = all.filter(
    ({ estimate }) => estimate.interval && (worstLimit(estimate.interval) !== undefined) !== isClear,
  );
  const decimals = decimalsOf(facts.primary.estimate.interval);
  const names = [...new Set(all.map(({ of }) => `${of}`))].join(' or ');
  return {
    code: 'one-unit',
    name: 'One wall, block or reader',
    fact: `With one ${names} left out, the difference runs from ${formatSigned(least.estimate.estimate, decimals)} (without ${least.of} ${least.left}) to ${formatSigned(most.estimate.estimate, decimals)} ${unitOf(facts)} (without ${most.of} ${most.left}).`,
    outcome: turned.length > 0 ? 'warns' : 'quiet',
    direction: 'either way',
    turn:
      turned.length > 0
        ? `Without ${turned
            .map(({ of, left }) => `${of} ${left}`)
            .slice(0, 4)
            .join(', ')} the interval ${isClear ? 'reaches' : 'leaves out'} zero.`
        : `No single one of them makes the interval ${isClear ? 'reach' : 'leave out'} zero.`,
    inference: turned.length > 0 ? 'The answer hangs on few units.' : 'The answer does not hang on one of them.',
    avoid: 'Have more walls, and each read by several people.',
  };
}

function lostWalls(facts: Facts, { missing }: Numbers): Threat | undefined {
  if (missing === undefined) return undefined;
  const { treated, untreated, pairs } = missing.missing;
  const shift = missing.shiftToZero;
  const crosses = missing.bounds.lower * missing.bounds.upper <= 0;
  return {
    code: 'lost-walls',
    name: 'Walls that were lost',
    fact: `${countInWords(treated, 'treated wall')} and ${countInWords(untreated, 'untreated wall')} have no change${pairs > 0 ? ` (${countInWords(pairs, 'pair')})` : ''}. Each as good or as bad as any wall seen, the difference would lie from ${numberInWords(missing.bounds.lower)} to ${quantityInWords(missing.bounds.upper, unitOf(facts))}, chance aside.`,
    outcome: crosses ? 'warns' : 'quiet',
    direction: 'either way',
    turn:
      shift === undefined
        ? 'No treated wall is missing, or the interval holds zero already.'
        : `The missing ${pairs > 0 ? 'pairs' : 'treated walls'} would have to differ from those seen by ${quantityInWords(Math.abs(shift), unitOf(facts))}.`,
    inference: crosses
      ? 'What was lost could have turned the difference round.'
      : 'What was lost could not have turned the difference round, if it was like any wall seen.',
    avoid: 'Keep every wall to the end.',
  };
}

function hiddenCause(facts: Facts, { confounding }: Numbers): Threat | undefined {
  if (confounding === undefined) return undefined;
  return {
    code: 'hidden-cause',
    name: 'A hidden cause',
    fact: 'The walls to be treated were chosen, not drawn by lot.',
    outcome: 'open',
    direction: 'either way',
    turn: toZero(
      facts,
      (size) =>
        `A cause found ${numberInWords(confounding.forLimit)} times as often among treated walls, which makes a good result as many times likelier, would do; or one in all treated and no untreated walls that moves a wall by ${size}.`,
    ),
    inference: 'Whether there is such a cause, no computation can tell.',
    avoid: 'Draw the treated walls by lot.',
  };
}

function nullTest(
  facts: Facts,
  answer: Answer | undefined,
  words: Pick<Threat, 'code' | 'name' | 'avoid'> & { readonly found: string; readonly none: string },
): Threat | undefined {
  if (answer === undefined) return undefined;
  const { found, none, ...rest } = words;
  if (answer.kind === 'not-estimated') {
    const fact = `Cannot be looked for: ${answer.notEstimated.reason}.`;
    const inference = 'Left open.';
    return { ...rest, fact, outcome: 'open', direction: 'either way', turn: toZero(facts, needed), inference };
  }
  const warns = isSmall(facts, answer);
  return {
    ...rest,
    fact: `${numbersOf(answer.estimate)}.`,
    outcome: warns ? 'warns' : 'quiet',
    direction: pushOf(facts, answer.estimate.estimate),
    turn: toZero(facts, needed),
    inference: warns ? found : none,
  };
}

const needed = (size: string) => `It would have to carry ${size} of the difference.`;

function answerNamed({ nothing }: Numbers, id: string): Answer | undefined {
  return nothing.find((answer) => (answer.kind === 'estimated' ? answer.estimate.id : answer.notEstimated.id) === id);
}

function beforeTreatment(facts: Facts, numbers: Numbers): Threat | undefined {
  return nullTest(facts, answerNamed(numbers, 'placebo-dates'), {
    code: 'placebo-dates',
    name: 'An effect before the treatment',
    found: 'The arms were drifting apart before anything was done; some of the difference may be that drift.',
    none: 'No drift apart before the treatment was found; a small one may have gone unseen.',
    avoid: 'Read on several days over a year before the treatment.',
  });
}

function outOfReach(facts: Facts, numbers: Numbers): Threat | undefined {
  return nullTest(facts, answerNamed(numbers, 'out-of-reach'), {
    code: 'out-of-reach',
    name: 'An effect where none can be',
    found: 'The arms differ even where the treatment cannot act, so something else sets them apart.',
    none: 'No difference was found where the treatment cannot act.',
    avoid: 'Read stations above the damp zone as well, and say in the plan from which height.',
  });
}

function shamActed(facts: Facts, numbers: Numbers): Threat | undefined {
  const threat = nullTest(facts, answerNamed(numbers, 'sham-against-control'), {
    code: 'sham-against-control',
    name: 'A sham that acts',
    found:
      'Sham walls changed differently from walls with nothing on them, so that mounting, visits or attention did something by themselves.',
    none: 'Sham walls changed no differently from walls with nothing on them; a small difference may have gone unseen.',
    avoid: 'Treat sham and plain walls alike in all but the sham, and draw both by lot.',
  });
  if (threat === undefined || threat.outcome === 'open') return threat;
  // A sham that dries walls hides part of what the treatment does beyond it.
  return { ...threat, direction: opposite(threat.direction) };
}

function unlikeBefore(facts: Facts, numbers: Numbers): Threat | undefined {
  const threat = nullTest(facts, answerNamed(numbers, 'baseline-difference'), {
    code: 'baseline-difference',
    name: 'Walls unlike at the start',
    found:
      'The arms differed before the treatment by more than chance usually makes; see the baseline-adjusted analysis.',
    none: 'The arms were no more unlike before the treatment than chance makes them.',
    avoid: 'Pair the walls by their before values.',
  });
  // Walls that start worse come down by themselves.
  return threat && { ...threat, direction: opposite(threat.direction) };
}

function carriedOver(facts: Facts, numbers: Numbers): Threat | undefined {
  const threat = nullTest(facts, answerNamed(numbers, 'carry-over'), {
    code: 'carry-over',
    name: 'Carry-over to neighbours',
    found: 'Untreated walls beside treated ones changed differently from the others.',
    none: 'Untreated walls beside treated ones changed no differently from the others.',
    avoid: 'Keep untreated walls apart from treated ones.',
  });
  if (threat === undefined) return undefined;
  // A treatment that reaches the untreated walls hides its own effect.
  const direction = threat.outcome === 'open' ? 'away from the claim' : opposite(threat.direction);
  return { ...threat, direction };
}

function opposite(direction: Threat['direction']): Threat['direction'] {
  if (direction === 'either way') return direction;
  return direction === 'towards the claim' ? 'away from the claim' : 'towards the claim';
}

function pickedWettest(facts: Facts, { fall, choices }: Numbers): Threat | undefined {
  if (fall === undefined) return undefined;
  const adjusted = choices.flatMap((answer) =>
    answer.kind === 'estimated' && answer.estimate.id === 'baseline-adjusted' ? [answer.estimate] : [],
  )[0];
  const isAlone = facts.primary.kind !== 'estimated';
  const isShare =
    adjusted?.interval !== undefined &&
    nearestLimit(facts) !== undefined &&
    worstLimit(adjusted.interval) === undefined;
  return {
    code: 'picked-wettest',
    name: 'Walls picked for being wet',
    fact:
      typeof fall === 'string'
        ? `The expected fall without any treatment cannot be told: ${fall}.`
        : `With nothing done, walls so picked are expected to come down by ${quantityInWords(fall.expected, unitOf(facts))} (a reading’s reliability ${numberInWords(fall.reliability, 2)}).${adjusted ? ` Difference among walls of the same before value: ${numbersOf(adjusted)}.` : ''}`,
    outcome: isAlone || isShare ? 'warns' : typeof fall === 'string' ? 'open' : 'quiet',
    direction: 'towards the claim',
    turn: toZero(
      facts,
      (size) => `The treated walls would have to fall ${size} more of themselves than the untreated.`,
    ),
    inference: isAlone
      ? 'A fall of treated walls by themselves of about that size says nothing of the treatment.'
      : isShare
        ? 'Among walls of the same before value the difference cannot be told from none: the fall of walls picked at their worst may be all there is.'
        : 'Both arms share this fall as far as they were picked alike; the adjusted difference takes off what they do not share.',
    avoid: 'Pick the walls first, read them again, and take the later readings as the before values.',
  };
}
