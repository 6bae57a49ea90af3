import { countThreats } from '../../opinion/evidence.js';
import type { TurningPoints } from '../../opinion/judging/turning-points.js';
import type { Opinion, Seriousness } from '../../opinion/opinion.js';
import { type CoreItem, coreItems } from '../../opinion/threats/core-list.js';
import { isWeighed, type Threat, type ThreatDomain, threatDomains } from '../../opinion/threats/threat.js';
import { turnInWords } from '../../opinion/threats/turn-in-words.js';
import { groupBy } from '../../plain/group-by.js';
import { formatStated } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Section, strong } from '../document.js';

const domainNames: Readonly<Record<ThreatDomain, string>> = {
  allocation: 'Allocation',
  'departures-and-timing': 'Departures and timing',
  'missing-data': 'Missing data',
  measurement: 'Measurement',
  'choice-of-result': 'Choice of the result',
};

const findings: Readonly<Record<Threat['finding'], string>> = {
  found: 'found',
  'not-found': 'not found',
  'could-not-be-looked-for': 'could not be looked for',
};

const meanings: Readonly<Record<Seriousness, string>> = {
  fatal: '“fatal”: the question cannot be answered',
  serious: '“serious”: it could make or hide such a result by itself',
  minor: '“minor”: worth knowing, and unlikely to turn the answer',
};

/** Everything that was looked for, by domain; what was found, with what would have avoided it; and what the folder must state. */
export function threatsSection({ threats, protocol, judging }: Opinion): Section {
  const weighed = threats.filter(isWeighed);
  return {
    id: 'threats',
    heading: 'Threats to validity',
    blocks: [
      paragraph(introduction(threats)),
      ...turning(judging?.turning, protocol.outcome.unit),
      ...threatDomains.flatMap((domain) =>
        domainBlocks(
          domain,
          threats.filter((threat) => threat.domain === domain),
        ),
      ),
      ...remedies(weighed),
      ...decidingFigures(threats),
      ...coreList(threats),
    ],
  };
}

/** What any bias of the difference would have to be, said once. */
function turning(points: TurningPoints | undefined, unit: string): readonly Block[] {
  if (points === undefined) return [];
  return [
    paragraph(
      strong('What would change the verdict.'),
      ` ${turnInWords({ turning: points, direction: 'either way', unit })}`,
    ),
  ];
}

function introduction(threats: readonly Threat[]): string {
  const count = countThreats(threats);
  const parts = (['fatal', 'serious', 'minor'] as const).flatMap((each) =>
    count[each] === 0 ? [] : [`${count[each]} ${each}`],
  );
  const counted =
    parts.length === 0
      ? 'None counts against the evidence. That does not mean that there is none: only what was written down can be judged.'
      : `Those that count against the evidence: ${parts.join(', ')}. Threats that rest on the same statement count once.`;
  return `${countInWords(threats.length, 'threat')} to this trial were looked for, in the domains that published guidance on judging trials uses. ${counted} Weights: ${(['fatal', 'serious', 'minor'] as const).map((each) => meanings[each]).join('; ')}. What could not be looked for weighs nothing, unless it is on the core list below. How many of which weight make evidence firm, fair or shaky is our convention.`;
}

/** What counts, in a table with all that belongs to it; what does not, in a list. */
function domainBlocks(domain: ThreatDomain, threats: readonly Threat[]): readonly Block[] {
  if (threats.length === 0) return [];
  const weighed = threats.filter(isWeighed).toSorted((one, other) => gravity(one) - gravity(other));
  const rest = (finding: Threat['finding']) => threats.filter((one) => !isWeighed(one) && one.finding === finding);
  return [
    { kind: 'subheading', text: domainNames[domain] },
    ...(weighed.length === 0 ? [] : [weighedTable(domain, weighed)]),
    ...list('Looked for and not found', rest('not-found')),
    ...list('Could not be looked for', rest('could-not-be-looked-for')),
  ];
}

function gravity({ seriousness }: Threat): number {
  return ['fatal', 'serious', 'minor'].indexOf(seriousness ?? 'minor');
}

function weighedTable(domain: ThreatDomain, threats: readonly Threat[]): Block {
  return {
    kind: 'table',
    caption: `${domainNames[domain]}: what counts, its direction of bias, and what would change the verdict`,
    columns: [
      { header: 'Threat' },
      { header: 'Facts', look: 'prose' },
      { header: 'Direction of bias' },
      { header: 'To change the verdict', look: 'prose' },
    ],
    rows: threats.map((threat): Line[] => [
      [strong(threat.name), ` (${findings[threat.finding]}, ${threat.seriousness})`],
      [quoted(factsOf(threat))],
      [threat.direction],
      [threat.tipping],
    ]),
  };
}

function list(heading: string, threats: readonly Threat[]): readonly Block[] {
  if (threats.length === 0) return [];
  return [
    paragraph(`${heading}:`),
    {
      kind: 'list',
      items: threats.map(
        (threat): Line => [
          strong(`${threat.name}.`),
          ' ',
          quoted(factsOf(threat)),
          ` (${threat.direction})${ownTipping(threat)}`,
        ],
      ),
    },
  ];
}

/** The bias that would change the verdict stands above, once for all: only what is of this threat alone is said here. */
function ownTipping({ tippingIs, tipping }: Threat): string {
  return tippingIs === 'its-own' && tipping !== '' ? ` ${tipping}` : '';
}

function factsOf({ text, needs }: Threat): string {
  return needs === undefined ? text : `${text} Needed: ${withoutMarks(needs)}.`;
}

/** Names of files and keys are set in marks for the terminal and for Markdown; in a table they stand plain. */
function withoutMarks(text: string): string {
  return text.replaceAll('`', '');
}

function remedies(weighed: readonly Threat[]): readonly Block[] {
  if (weighed.length === 0) return [];
  return [
    { kind: 'subheading', text: 'What would have avoided what counts' },
    { kind: 'list', items: weighed.map(({ name, remedy }): Line => [strong(`${name}.`), ` ${withoutMarks(remedy)}`]) },
  ];
}

/** Limits of ours and figures of the trade decide what counts: each with its mark, so that nobody takes it for established. */
function decidingFigures(threats: readonly Threat[]): readonly Block[] {
  const deciding = threats.flatMap(({ name, decidedBy }) => decidedBy.map((figure) => ({ name, figure })));
  const rows = groupBy(deciding, ({ figure }) => figure.says);
  if (rows.size === 0) return [];
  return [
    { kind: 'subheading', text: 'Limits and figures that decided' },
    paragraph(
      '“Our convention” has no source but this program; “common practice, no source” has none that was checked. With another limit a threat near it would count otherwise.',
    ),
    {
      kind: 'table',
      caption: 'By which numbers threats were found or weighed here, and where these come from',
      columns: [
        { header: 'Number', look: 'number' },
        { header: 'What it is', look: 'prose' },
        { header: 'Where it is from' },
        { header: 'Decides', look: 'prose' },
      ],
      rows: [...rows.values()].map((own): Line[] => {
        const [{ figure }] = own;
        return [
          [`${figureText(figure.value)}${figure.unit === '' ? '' : ` ${figure.unit}`}`],
          [figure.says],
          [figure.mark],
          [own.map(({ name }) => name).join('; ')],
        ];
      }),
    },
  ];
}

/** A coefficient of transfer has its nine zeros as a power. */
function figureText(value: number): string {
  return value < 1e-6 ? `${formatStated(Number((value * 1e9).toPrecision(6)))} × 10⁻⁹` : formatStated(value);
}

function coreList(threats: readonly Threat[]): readonly Block[] {
  const silent = new Set(
    threats.flatMap((threat) =>
      threat.finding === 'could-not-be-looked-for' && isWeighed(threat) ? threat.restsOn : [],
    ),
  );
  const items = Object.keys(coreItems) as CoreItem[];
  return [
    { kind: 'subheading', text: 'The core list: what firm evidence rests on' },
    paragraph(
      'Whatever its numbers, a trial whose folder is silent on one of these is no better than fair. Silence weighs as much as the fault that it could hide.',
    ),
    {
      kind: 'table',
      caption: 'The core list, and whether this trial states it',
      columns: [{ header: 'The folder says', look: 'prose' }, { header: 'Stated' }],
      rows: items.map((item): Line[] => [[coreItems[item].says], [silent.has(item) ? 'no' : 'yes']]),
    },
  ];
}
