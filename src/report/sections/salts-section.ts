import type { IonOfArm, SaltsOfArm, SaltsPart } from '../../findings/salts/salts-of-trial.js';
import type { SaltsWhenConditioned } from '../../findings/salts/salts-when-conditioned.js';
import { type SaltClass, type SaltPurpose, saltSchemes } from '../../moisture/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { type SaltIon, saltIons } from '../../trial/index.js';
import { formatNumber, formatPValue, formatStated } from '../../words/format-number.js';
import { countInWords, listInWords, numberInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Section } from '../document.js';

/** What salts the walls held before and after, by arm, and what they do to the other readings. */
export function saltsSection({ salts }: Opinion): Section | undefined {
  if (salts === undefined) return undefined;
  return {
    id: 'salts',
    heading: 'Salts',
    blocks: [
      paragraph(
        `${countInWords(salts.samples, 'sample')} of the compared walls ${salts.samples === 1 ? 'was' : 'were'} analysed for salts inside the windows${salts.outside === 0 ? '' : `; ${salts.outside} from other days or other walls ${salts.outside === 1 ? 'is' : 'are'} excluded`}. Contents are % by mass of the dry material. A value below the detection limit stands in a mean as a range, from none of it to all of it.`,
      ),
      ...contentsTable(salts),
      ...classesBlocks(salts),
      ...changeBlocks(salts),
      ...salts.conditioned.map(conditionedBlock),
    ],
  };
}

/** What schemes of salt loads were made for. */
const purposes: Readonly<Record<SaltPurpose, string>> = {
  'renovation-plasters': 'choice of renovation plasters',
  desalination: 'desalination of stone and other porous materials by poultices',
  'drying-out': 'drying out of damp masonry',
};

function contentsTable({ arms }: SaltsPart): readonly Block[] {
  if (arms.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'Salts by arm and window, means over walls, in % by mass',
      columns: [
        { header: 'Arm' },
        { header: 'Window' },
        { header: 'Walls', look: 'number' },
        { header: 'Samples', look: 'number' },
        { header: 'Chloride', look: 'number' },
        { header: 'Nitrate', look: 'number' },
        { header: 'Sulfate', look: 'number' },
        { header: 'Below detection', look: 'number' },
      ],
      rows: arms.map((each) => [
        [quoted(each.arm)],
        [each.window],
        [formatNumber(each.walls, 0)],
        [formatNumber(each.samples, 0)],
        ...saltIons.map((ion): Line => [contentOf(each, ion)]),
        [
          formatNumber(
            each.ions.reduce((sum, { below }) => sum + below, 0),
            0,
          ),
        ],
      ]),
    },
  ];
}

function contentOf({ ions }: SaltsOfArm, ion: SaltIon): string {
  const own = ions.find((each) => each.ion === ion);
  return own === undefined ? 'none' : rangeText(own);
}

function rangeText({ lower_pct, upper_pct }: Pick<IonOfArm, 'lower_pct' | 'upper_pct'>): string {
  const [lower, upper] = [formatNumber(lower_pct, 3), formatNumber(upper_pct, 3)];
  return lower === upper ? lower : `${lower} to ${upper}`;
}

const classesInOrder: readonly SaltClass[] = ['low', 'medium', 'high', 'unknown'];

function classesBlocks({ arms }: SaltsPart): readonly Block[] {
  const rows = arms.flatMap((each) => each.classes.map((own) => ({ ...each, ...own, inArm: each.walls })));
  if (rows.length === 0)
    return [
      paragraph('The samples name no scheme, and so the contents have no class: schemes differ by about five times.'),
    ];
  const schemes = [...new Set(rows.map(({ scheme }) => scheme))].map((name) => saltSchemes[name]);
  return [
    {
      kind: 'table',
      caption: 'Walls by the class of their worst sample and its worst ion',
      columns: [
        { header: 'Arm' },
        { header: 'Window' },
        { header: 'Scheme' },
        { header: 'Low', look: 'number' },
        { header: 'Medium', look: 'number' },
        { header: 'High', look: 'number' },
        { header: 'Not known', look: 'number' },
        { header: 'Worst ion (walls)' },
      ],
      rows: rows.map(({ arm, window, scheme, walls, worst }) => [
        [quoted(arm)],
        [window],
        [saltSchemes[scheme].name],
        ...classesInOrder.map((each): Line => [formatNumber(walls[each], 0)]),
        [
          listInWords(saltIons.flatMap((ion) => (worst[ion] === undefined ? [] : [`${ion} (${worst[ion]})`]))) ||
            'none above low',
        ],
      ]),
    },
    paragraph(
      ...schemes.map(
        ({ name, purpose, source }) =>
          `${name} was made for the ${purposes[purpose]} (${source.document}${source.mark === 'from memory' ? '; from memory' : ''}). `,
      ),
      'Not known: a detection limit above the lowest class may hide a higher one.',
    ),
  ];
}

function changeBlocks({ changes }: SaltsPart): readonly Block[] {
  if (changes.length === 0)
    return [
      paragraph('No place of both arms was sampled before and after, so nothing can be said of a change of salts.'),
    ];
  return [
    {
      kind: 'table',
      caption: 'Change of salts at places sampled before and after, means over walls, in percentage points',
      columns: [
        { header: 'Ion' },
        { header: 'Walls, treated and untreated', look: 'number' },
        { header: 'Treated', look: 'number' },
        { header: 'Untreated', look: 'number' },
        { header: 'p-value (Welch)', look: 'number' },
      ],
      rows: changes.map(({ ion, treated, untreated, pValue }) => [
        [ion],
        [`${treated.walls}, ${untreated.walls}`],
        [rangeText(treated)],
        [rangeText(untreated)],
        [pValue === undefined ? 'none' : formatPValue(pValue)],
      ]),
    },
    paragraph(
      'Salts move with water and stay where it evaporates. Where they changed, the hygroscopic part of the moisture changed too, and an electrical meter shows it as a change of water.',
    ),
  ];
}

function conditionedBlock({ condition: { setpoint_rh_pct, temperature_c }, salts }: SaltsWhenConditioned): Block {
  const named = (state: (typeof salts)[number]['state']) =>
    salts
      .filter((each) => each.state === state)
      .map(({ salt, dissolvesAt_pct }) => `${salt} (${numberInWords(dissolvesAt_pct, 1)} %)`);
  const [dissolves, near] = [named('dissolves'), named('near')];
  const parts = [
    ...(dissolves.length === 0
      ? []
      : [
          `In that air these dissolve in the water that they draw from it: ${listInWords(dissolves)}. The humid weighing then holds their brine.`,
        ]),
    ...(near.length === 0 ? [] : [`So close to it that a chamber a little off decides: ${listInWords(near)}.`]),
    ...(dissolves.length + near.length === 0 ? ['None of them dissolves in that air.'] : []),
  ];
  return paragraph(
    `Cores were weighed humid in air of ${formatStated(setpoint_rh_pct)} % and ${formatStated(temperature_c)} °C. What follows is of the pure salts that the ions found may form, with the humidity at which each dissolves. ${parts.join(' ')} The ions do not say which salts a wall holds, and mixed salts dissolve at less.`,
  );
}
