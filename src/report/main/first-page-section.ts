import { describeIntervalChart, type IntervalChartData, intervalChart } from '../../charts/index.js';
import { labelOf } from '../../labels/index.js';
import { countThreats } from '../../opinion/evidence.js';
import type { Opinion } from '../../opinion/opinion.js';
import { isWeighed, type Threat } from '../../opinion/threats/threat.js';
import { verdictInWords } from '../../opinion/threats/turn-in-words.js';
import { present } from '../../plain/present.js';
import type { NextTrial } from '../../planning/index.js';
import { countInWords, differenceInWords } from '../../words/quantity.js';
import type { See } from '../annex-names.js';
import { type Block, type Line, type Link, quoted, type Section, strong } from '../document.js';
import { answerInWords } from '../words/answer-in-words.js';
import { firstSentence, shortFact } from '../words/first-sentence.js';
import { outcomeDecimals } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';

/** The page for whoever asked: question, answer, one picture, and four plain questions. */
export function firstPageSection(
  opinion: Opinion,
  see: See,
  contents: readonly Link[],
  nextTrial?: NextTrial,
): Section {
  const { protocol } = opinion;
  return {
    id: 'answer',
    heading: 'The question and the answer',
    part: 'first',
    blocks: [
      {
        kind: 'paragraph',
        role: 'question',
        line: ['The claim that was put to the test: “', quoted(protocol.claim), '”'],
      },
      { kind: 'paragraph', role: 'answer', line: [quoted(answerInWords(opinion)), ' (', see('analyses'), ')'] },
      ...picture(opinion),
      {
        kind: 'terms',
        items: [
          { term: 'How sure', line: howSure(opinion.threats, opinion.verdict.evidence, see) },
          ...howFragile(opinion, see),
          { term: 'What would settle it', line: whatWouldSettle(opinion, nextTrial, see) },
          { term: 'What this is not', line: whatThisIsNot(opinion, see) },
        ],
      },
      { kind: 'contents', links: contents },
    ],
  };
}

function picture({ primary, protocol, walls }: Opinion): readonly Block[] {
  if (primary.kind !== 'estimated') return [];
  const { estimate } = primary;
  const { unit, better } = protocol.outcome;
  const data: IntervalChartData = {
    title: 'The difference, against zero and the margin',
    rows: [
      {
        label: labelOf(estimate),
        estimate: estimate.estimate,
        lower: estimate.interval.lower,
        upper: estimate.interval.upper,
      },
    ],
    ...{ unit, better, level: protocol.confidence, walls: estimate.walls },
    ...present({ margin: protocol.margin }),
    decimals: outcomeDecimals({ primary, walls }),
  };
  const size = estimate.walls.treated + estimate.walls.untreated === 2 ? 'wall' : 'walls';
  const whose = size === 'wall' ? 'wall’s' : 'walls’';
  const isRead = walls.some(({ before }) => before !== undefined);
  const [left, right] = better === 'lower' ? ['better', 'worse'] : ['worse', 'better'];
  return [
    {
      kind: 'figure',
      caption: `The treated ${whose} ${isRead ? 'change' : 'after value'} less the untreated ${whose}, in ${unit}. Left of zero the treated ${size} did ${left} than the untreated, right of it ${right}.`,
      charts: [
        {
          wide: intervalChart(data),
          narrow: intervalChart(data, { width: narrowWidth }),
          description: describeIntervalChart(data),
        },
      ],
    },
  ];
}

/** So many reasons stand on the first page; the annex holds them all. */
const shown = 3;
const gravity = ['fatal', 'serious', 'minor'];

export function byGravity(threats: readonly Threat[]) {
  return threats
    .filter(isWeighed)
    .toSorted((one, other) => gravity.indexOf(one.seriousness) - gravity.indexOf(other.seriousness));
}

function howSure(threats: readonly Threat[], evidence: string, see: See): Line {
  const weighed = byGravity(threats);
  const reasons = weighed
    .slice(0, shown)
    .flatMap((threat): Line => [' ', strong(`${threat.name}.`), ' ', quoted(shortFact(threat.text))]);
  const rest = weighed.length - shown;
  return [
    'The evidence is ',
    strong(evidence),
    `: ${countsInWords(threats)}.`,
    ...(listedMoreOften(threats) ? [' Points that rest on the same thing count once.'] : []),
    ...reasons,
    ...(rest > 0 ? [` ${countInWords(rest, 'more point counts', 'more points count')}.`] : []),
    ' (',
    see('threats'),
    ')',
  ];
}

function countsInWords(threats: readonly Threat[]): string {
  const count = countThreats(threats);
  const worst = (['fatal', 'serious', 'minor'] as const).find((each) => count[each] > 0);
  switch (worst) {
    case 'fatal':
      return count.fatal === 1
        ? 'one point makes any conclusion impossible'
        : `${count.fatal} points each make any conclusion impossible`;
    case 'serious':
      return `${countInWords(count.serious, 'serious point counts', 'serious points count')} against the trial`;
    case 'minor':
      return `nothing serious counts against the trial, and ${countInWords(count.minor, 'minor point does', 'minor points do')}`;
    case undefined:
      return 'nothing that was looked for counts against the trial';
  }
}

/** Whether a reader who counts the points of the worst kind finds more than are said to count. */
function listedMoreOften(threats: readonly Threat[]): boolean {
  const [worst] = byGravity(threats);
  if (worst === undefined) return false;
  const alike = threats.filter((threat) => isWeighed(threat) && threat.seriousness === worst.seriousness);
  return alike.length > countThreats(threats)[worst.seriousness];
}

const fragilities = new Set(['turns-without-one', 'turns-without-reader', 'turns-among-blind', 'turns-with-choices']);

/** How easily the verdict changes: beside the verdict, not pages later. */
function howFragile({ primary, threats, judging, protocol }: Opinion, see: See) {
  if (primary.kind !== 'estimated') return [];
  const looked = threats.filter(({ code, finding }) => fragilities.has(code) && finding !== 'could-not-be-looked-for');
  const turning = looked.filter(({ finding }) => finding === 'found');
  const agreement = judging?.agreement;
  const agree =
    agreement === undefined || agreement.of < 2
      ? []
      : [`${agreement.agree} of ${agreement.of} reasonable analyses give this verdict.`];
  const single =
    looked.length === 0
      ? []
      : turning.length === 0
        ? ['Leaving out any one wall, block or reader does not change it.']
        : turning.map(({ tipping }) => tipping);
  const first = judging?.turning?.flattered[0];
  const bias =
    first === undefined
      ? []
      : [
          `A bias of ${differenceInWords(first.shift, protocol.outcome.unit)} towards the claim would change it${becomes(first.becomes)}.`,
        ];
  const sentences = [...agree, ...single, ...bias];
  if (sentences.length === 0) return [];
  return [
    { term: 'How fragile', line: [quoted(sentences.join(' ')), ' (', see('robustness', 'threats'), ')'] as Line },
  ];
}

function becomes(code: Parameters<typeof verdictInWords>[0] | 'holds-zero' | 'leaves-zero'): string {
  return code === 'holds-zero' || code === 'leaves-zero' ? '' : ` to ${verdictInWords(code)}`;
}

/** The remedy of the worst, and how many walls. */
function whatWouldSettle({ verdict, threats }: Opinion, nextTrial: NextTrial | undefined, see: See): Line {
  const heavy = byGravity(threats).filter(({ seriousness }) => seriousness !== 'minor');
  const remedies = [...new Set(heavy.map(({ remedy }) => firstSentence(remedy.replaceAll('`', ''))))].slice(0, 2);
  const isOpen = verdict.code === 'undecided' || verdict.code === 'some-effect';
  const size = nextTrial === undefined ? undefined : sizeInWords(nextTrial);
  return [
    ...(remedies.length === 0 ? [] : [quoted(`In another trial: ${remedies.join(' ')}`), ' (', see('threats'), ') ']),
    ...(size === undefined ? [] : [`${size} (`, see('next-trial'), ')']),
    ...(remedies.length === 0 && size === undefined
      ? [
          isOpen
            ? 'A trial with a stated margin and more walls.'
            : 'For these walls and this time, nothing more. Whether it holds for others, a trial on other walls would show.',
        ]
      : []),
  ];
}

function sizeInWords(next: NextTrial): string | undefined {
  if (next.kind === 'not-planned') return undefined;
  const [least, more] = next.ways[0]?.sizes ?? [];
  if (least === undefined || more === undefined) return undefined;
  if (least.needed.kind === 'too-many')
    return `Walls that scatter like these would need a trial of more than ${least.needed.most} walls.`;
  const surer = more.needed.kind === 'found' ? `, and about ${more.needed.walls} with 90 %` : '';
  return `About ${least.needed.walls} walls like these, read for ${countInWords(next.months, 'month')}, would find a treatment that does twice the margin with a chance of 80 %${surer}.`;
}

function whatThisIsNot({ verdict }: Opinion, see: See): Line {
  const more =
    verdict.code === 'undecided' || verdict.code === 'not-answerable'
      ? ' It does not say that the treatment does nothing.'
      : '';
  return [
    `It is no survey, no certificate and no statement about other walls.${more} It does not say why the walls changed. (`,
    see('limits'),
    ')',
  ];
}

/** Names, or how many there are. */
export function namesInWords(threats: readonly Threat[], most: number): string {
  const names = threats.map(({ name }) => name.charAt(0).toLowerCase() + name.slice(1));
  if (names.length <= most) return names.join('; ');
  return [...names.slice(0, most - 1), `${names.length - most + 1} more`].join('; ');
}
