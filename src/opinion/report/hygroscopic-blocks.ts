import { formatNumber, formatStated } from '../../charts/format-number.js';
import type { HygroscopicFacts, HygroscopicProfile } from '../cores/cores-part.js';
import { countInWords } from '../words/quantity.js';
import { type Block, type Line, paragraph, quoted } from './document.js';
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
    ...refusedBlocks(facts),
    ...profileTable(profiles),
    ...patternBlocks(profiles),
  ];
}

function negativeInWords(negative: number): string {
  if (negative === 0) return '';
  return ` It lies below zero in ${countInWords(negative, 'core')}, and is kept so, for cutting it off would make dry walls look wet.`;
}

function refusedBlocks({ refused }: HygroscopicFacts): readonly Block[] {
  if (refused.length === 0) return [];
  const parts = refused.map(({ reason, cores }) => `of ${countInWords(cores, 'core')}, because ${reason}`);
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
