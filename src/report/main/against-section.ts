import type { Opinion } from '../../opinion/opinion.js';
import { isWeighed, type Threat } from '../../opinion/threats/threat.js';
import { countInWords, differenceInWords } from '../../words/quantity.js';
import type { See } from '../annex-names.js';
import { type Block, type Line, paragraph, quoted, type Section, strong } from '../document.js';
import { shortFact } from '../words/first-sentence.js';
import { byGravity, namesInWords } from './first-page-section.js';

/** So many rows leave the main part its three pages; the annex holds them all. */
const mostRows = { estimated: 5, 'not-estimated': 3 } as const;
const mostNames = 8;

/** What was found against the result; by name what was looked for and not found, and what could not be looked for. */
export function againstSection({ threats, primary, protocol }: Opinion, see: See): Section {
  const weighed = byGravity(threats);
  const rest = weighed.slice(mostRows[primary.kind]);
  const listed = (finding: Threat['finding']) => threats.filter((one) => !isWeighed(one) && one.finding === finding);
  const names = primary.kind === 'estimated' ? mostNames : 4;
  return {
    id: 'against',
    heading: 'What counts against this result',
    part: 'further',
    blocks: [
      ...(weighed.length === 0
        ? [
            paragraph(
              `None of the ${threats.length} threats that were looked for counts against the trial. (`,
              see('threats'),
              ')',
            ),
          ]
        : [table(weighed.slice(0, mostRows[primary.kind]), protocol.outcome.unit, primary.kind === 'estimated', see)]),
      ...(rest.length === 0
        ? []
        : [paragraph(`Also, of less weight: ${namesInWords(rest, names)}. (`, see('threats'), ')')]),
      ...named('Looked for and not found', listed('not-found'), names, see),
      ...named('Could not be looked for', listed('could-not-be-looked-for'), names, see),
    ],
  };
}

function named(heading: string, threats: readonly Threat[], most: number, see: See): readonly Block[] {
  if (threats.length === 0) return [];
  return [paragraph(strong(`${heading}:`), ` ${namesInWords(threats, most)}. (`, see('threats'), ')')];
}

function table(threats: readonly Threat[], unit: string, hasVerdict: boolean, see: See): Block {
  return {
    kind: 'table',
    caption: `What was found, ${countInWords(threats.length, 'point')}`,
    columns: [
      { header: 'Found', look: 'prose' },
      { header: 'Direction' },
      ...(hasVerdict ? [{ header: 'Bias that would change the verdict' }] : []),
      { header: 'See', look: 'whole' },
    ],
    rows: threats.map((threat): Line[] => [
      [strong(`${threat.name} (${threat.seriousness}).`), ' ', quoted(shortFact(threat.text))],
      [threat.direction],
      ...(hasVerdict ? [[turn(threat, unit)] as Line] : []),
      [see('threats')],
    ]),
  };
}

function turn({ tippingIs, tippingPoint, tipping }: Threat, unit: string): string {
  if (tippingIs === 'its-own') return shortFact(tipping);
  return tippingPoint === undefined ? 'none' : differenceInWords(tippingPoint, unit);
}
