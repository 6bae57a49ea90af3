import type { HygroscopicFacts, HygroscopicProfile } from '../../findings/cores/cores-part.js';
import { clearly } from '../../findings/cores/hygroscopic-parts.js';
import { reasonInWords } from '../../labels/index.js';
import { nearSalt_pp } from '../../moisture/index.js';
import { formatNumber, formatStated } from '../../words/format-number.js';
import { countInWords, listInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted } from '../document.js';
import { patternBlocks } from './pattern-blocks.js';

/** What humid air alone would give, what lies above it, and what such a pattern fits. */
export function hygroscopicBlocks(facts: HygroscopicFacts | undefined): readonly Block[] {
  if (facts === undefined) return [];
  const { condition, cores, negative, profiles } = facts;
  const at =
    condition === undefined
      ? ''
      : `${formatStated(condition.setpoint_rh_pct)} % relative humidity and ${formatStated(condition.temperature_c)} °C`;
  return [
    { kind: 'subheading', text: 'What humid air alone would give' },
    ...(cores === 0
      ? []
      : [
          paragraph(
            `${countInWords(cores, 'core')} ${cores === 1 ? 'was' : 'were'} weighed again in equilibrium with air of ${at}. What a core then holds, salts and fine pores take from the air: the hygroscopic part. What it held beyond that is the excess, which liquid water may explain.${negativeInWords(negative)}`,
          ),
        ]),
    ...saltBlocks(facts),
    ...airBlocks(facts),
    ...refusedBlocks(facts),
    ...profileTable(profiles),
    ...patternBlocks(profiles),
  ];
}

function negativeInWords(negative: number): string {
  if (negative === 0) return '';
  return ` It lies below zero in ${countInWords(negative, 'core')}, and is kept so, for cutting it off would make dry walls look wet.`;
}

/** A chamber a little off gives another moisture where a salt dissolves close to it. */
function saltBlocks({ cores, salts }: HygroscopicFacts): readonly Block[] {
  if (salts === undefined || cores === 0) return [];
  const { near, notKnown } = salts;
  const named = near.map(
    ({ salt, humidity_pct, source }) =>
      `${salt} at ${formatNumber(humidity_pct, 1)} % (${source.document}; ${source.mark})`,
  );
  return [
    ...(named.length === 0
      ? []
      : [
          paragraph(
            `Salts that dissolve within ${nearSalt_pp.value} points of that humidity (${nearSalt_pp.mark}): ${named.join('; ')}. Where the walls hold one of them, a chamber a little off gives another hygroscopic part.`,
          ),
        ]),
    ...(notKnown.length === 0
      ? []
      : [
          paragraph(
            `Where ${listInWords(notKnown, 13)} dissolve at that temperature is not known; salts in a mixture dissolve at less.`,
          ),
        ]),
  ];
}

/** The humid part is that of the chamber, and the wall stands in other air. */
function airBlocks({ condition, cores, air }: HygroscopicFacts): readonly Block[] {
  if (air === undefined || condition === undefined || cores === 0) return [];
  if (!(air.mean_pct > condition.setpoint_rh_pct)) return [];
  const contradiction =
    air.drierThanAirAllows === 0
      ? ''
      : ` Yet ${countInWords(air.drierThanAirAllows, 'core')} held less than in the chamber by more than ${clearly.value} standard uncertainties (${clearly.mark}). One of the two is wrong: the sample was crushed, had not come to equilibrium, or held other salts than the wall.`;
  return [
    paragraph(
      `The air beside the walls was more humid, ${formatNumber(air.mean_pct, 0)} % on average, than in the chamber. Their salts and pores took up more there than in the chamber, and some of the excess is no liquid water.${contradiction}`,
    ),
  ];
}

function refusedBlocks({ refused }: HygroscopicFacts): readonly Block[] {
  if (refused.length === 0) return [];
  const parts = refused.map(
    ({ reason, cores }) => `of ${countInWords(cores, 'core')}, because ${reasonInWords(reason)}`,
  );
  return [
    paragraph(
      `No excess is computed ${parts.join('; and ')}. A hygroscopic part means something only with its humidity: near the point at which a salt dissolves, a few points of humidity move it by many points of moisture. Conditions count as alike within half a point of humidity and 2 °C (our convention).`,
    ),
  ];
}

function profileTable(profiles: readonly HygroscopicProfile[]): readonly Block[] {
  if (profiles.length === 0) return [];
  const arms = [...new Set(profiles.map(({ arm }) => arm))];
  return [
    {
      kind: 'table',
      caption: 'Hygroscopic part and excess by height, means over walls, in % by mass',
      columns: [
        { header: 'Arm' },
        { header: 'Height (mm)', look: 'number' },
        { header: 'Walls, before and after', look: 'number' },
        { header: 'Hygroscopic before', look: 'number' },
        { header: 'After', look: 'number' },
        { header: 'Excess before', look: 'number' },
        { header: 'After', look: 'number' },
      ],
      rows: arms.flatMap((arm) => heightRows(arm, profiles)),
    },
  ];
}

function heightRows(arm: string, profiles: readonly HygroscopicProfile[]): readonly (readonly Line[])[] {
  const windows = (['before', 'after'] as const).map(
    (window) => profiles.find((each) => each.arm === arm && each.window === window)?.heights ?? [],
  );
  const heights = [...new Set(windows.flat().map(({ height_mm }) => height_mm))].sort((one, other) => one - other);
  return heights.map((height) => {
    const cells = windows.map((own) => own.find(({ height_mm }) => height_mm === height));
    const part = (key: 'hygroscopic_pct' | 'excess_pct') =>
      cells.map((cell): Line => [cell === undefined ? 'none' : formatNumber(cell[key], 2)]);
    return [
      [quoted(arm)],
      [formatStated(height)],
      [cells.map((cell) => formatNumber(cell?.walls ?? 0, 0)).join(', ')],
      ...part('hygroscopic_pct'),
      ...part('excess_pct'),
    ];
  });
}
