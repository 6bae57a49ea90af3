import type { BatchGroup, ReusedCoresFacts } from '../../findings/cores/cores-part.js';
import { dryingRules } from '../../moisture/index.js';
import { decimalsFor, formatNumber, formatSigned, formatStated } from '../../words/format-number.js';
import { countInWords, listInWords } from '../../words/quantity.js';
import { type Block, paragraph, quoted } from '../document.js';

/** How the cores were dried, where batches say. */
export function batchBlocks(batches: readonly BatchGroup[] | undefined): readonly Block[] {
  if (batches === undefined) return [];
  const { tolerance_pct, name, source } = dryingRules['iso-12570'];
  return [
    { kind: 'subheading', text: 'How the cores were dried' },
    {
      kind: 'table',
      caption: 'Drying batches, those treated alike in one row',
      columns: [
        { header: 'Batches' },
        { header: 'Weighings', look: 'number' },
        { header: 'Oven (°C)', look: 'number' },
        { header: 'Stopped when', look: 'prose' },
        { header: 'Last change (% of mass)', look: 'number' },
        { header: 'Still in it (% of mass)', look: 'number' },
        { header: 'Rule met' },
        { header: 'Weighed humid at', look: 'number' },
      ],
      rows: batches.map((group) => [
        [quoted(listInWords(group.batches, 4))],
        [formatNumber(group.cores, 0)],
        [stated(group.oven_c)],
        group.stopRule === undefined ? ['not stated'] : [quoted(group.stopRule)],
        [stated(group.lastChange_pct)],
        [
          group.stillIn_pct === undefined
            ? 'not known'
            : formatNumber(group.stillIn_pct, decimalsFor(group.stillIn_pct)),
        ],
        [ruleMet(group)],
        [conditionText(group)],
      ]),
    },
    paragraph(
      `A core is dry when weighing on no longer changes it: the usual rule (${name}, ${source.mark}) asks for less than ${formatStated(tolerance_pct)} % of its mass in a day. The last change is not what was still in the core: that follows from how fast the losses fell off, and needs the change before it as well. Cores of a trial are comparable where all were dried alike.`,
    ),
  ];
}

function stated(value: number | undefined): string {
  return value === undefined ? 'not stated' : formatStated(value);
}

function ruleMet({ isRuleMet }: BatchGroup): string {
  if (isRuleMet === undefined) return 'cannot be told';
  return isRuleMet ? 'yes' : 'no';
}

function conditionText({ humidity_pct, humidTemperature_c }: BatchGroup): string {
  if (humidity_pct === undefined) return 'not stated';
  const temperature = humidTemperature_c === undefined ? '' : `, ${formatStated(humidTemperature_c)} °C`;
  return `${formatStated(humidity_pct)} %${temperature}`;
}

/** What went back into the wall, and what its own change could hide. */
export function reusedBlocks(reused: ReusedCoresFacts | undefined): readonly Block[] {
  if (reused === undefined) return [];
  const { cores, walls, visits, hidden, corrected, serial } = reused;
  const often = visits.fewest === visits.most ? visits.most : `${visits.fewest} to ${visits.most}`;
  return [
    { kind: 'subheading', text: 'Cores that were put back' },
    paragraph(
      `${countInWords(cores, 'core')} in ${countInWords(walls, 'wall')} went back into the wall and ${cores === 1 ? 'was' : 'were'} weighed ${often} times. Such a core shows change without a new hole, but grains lost look like drying and salt gained looks like wetting.`,
    ),
    ...(hidden === undefined ? [] : [hiddenParagraph(hidden)]),
    ...(corrected === undefined
      ? []
      : [
          paragraph(
            `${countInWords(corrected.cores, 'core')} ${corrected.cores === 1 ? 'was' : 'were'} dried again later. Against the dry mass as it was at each visit, single visits move by up to ${formatNumber(corrected.largest_pp, decimalsFor(corrected.largest_pp))} percentage points from what the first dry mass gives.${answerInWords(corrected.answer)}`,
          ),
        ]),
    ...serialBlocks(serial),
  ];
}

function answerInWords(answer: NonNullable<ReusedCoresFacts['corrected']>['answer']): string {
  if (answer === undefined) return '';
  const { asRecorded, corrected, unit } = answer;
  const decimals = decimalsFor(Math.abs(asRecorded)) + 1;
  if (formatSigned(corrected, decimals) === formatSigned(asRecorded, decimals))
    return ` So corrected, the answer stays at ${formatSigned(asRecorded, decimals)} ${unit}.`;
  return ` So corrected, the treated walls’ change less the untreated walls’ would be ${formatSigned(corrected, decimals)} ${unit} instead of ${formatSigned(asRecorded, decimals)}.`;
}

function serialBlocks(serial: ReusedCoresFacts['serial']): readonly Block[] {
  const [first] = serial;
  if (first === undefined) return [];
  const arms = serial.flatMap(({ arm, lagOne, cores, visits, independentVisits }, at) => [
    `${at === 0 ? '' : '; '}${formatSigned(lagOne, 2)} in `,
    quoted(arm),
    ` (${countInWords(cores, 'core')} at ${countInWords(visits, 'visit')}, which tell a core’s mean no better than ${formatNumber(independentVisits, 1)} independent ones)`,
  ]);
  return [
    paragraph(
      'Serial correlation from one visit to the next, about what each core and each visit is on average: ',
      ...arms,
      `. Uncorrelated readings give about ${formatSigned(first.expectedIfIndependent, 2)}, because the estimate is biased low in so short a series. The answer does not depend on it: it counts each wall once, however often its cores were weighed.`,
    ),
  ];
}

function hiddenParagraph(hidden: NonNullable<ReusedCoresFacts['hidden']>): Block {
  const change = decimalsFor(hidden.apparentChange_pp);
  const mass = Math.max(2, decimalsFor(hidden.explainedBy_g));
  return paragraph(
    `${countInWords(hidden.cores, 'core')} ${hidden.cores === 1 ? 'has' : 'have'} one dry mass for all visits. Half of these changed by more than ${formatNumber(hidden.apparentChange_pp, change)} percentage points from first to last visit (median, in either direction). A loss or gain of ${formatNumber(hidden.explainedBy_g, mass)} g, ${formatNumber(hidden.explainedBy_pct, decimalsFor(hidden.explainedBy_pct))} % of the dry mass, would look like such a change with no change of water. Only drying the core again at the end can tell.`,
  );
}
