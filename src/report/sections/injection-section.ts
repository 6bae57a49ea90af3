import type { InjectedWall, InjectionOfTrial } from '../../findings/injection/injection-of-trial.js';
import { reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatNumber, formatSigned } from '../../words/format-number.js';
import { decimalsOf, levelInWords } from '../../words/movement.js';
import { countInWords, listInWords } from '../../words/quantity.js';
import { type Line, paragraph, quoted, type Section, type Table } from '../document.js';
import { dayText, intervalText } from '../words/report-numbers.js';

/** What was injected, and whether treated walls that were given more changed more. No section without injections on record. */
export function injectionSection({ injection, protocol }: Opinion): Section | undefined {
  if (injection === undefined) return undefined;
  return {
    id: 'injection',
    heading: 'What was injected',
    blocks: [
      table(injection.walls),
      ...(injection.notOnRecord.length === 0
        ? []
        : [
            paragraph(
              `No injection is on record for ${countInWords(injection.notOnRecord.length, 'treated wall')}: `,
              quoted(listInWords(injection.notOnRecord)),
              '.',
            ),
          ]),
      paragraph(responseInWords(injection, protocol.outcome.unit)),
    ],
  };
}

function table(walls: readonly InjectedWall[]): Table {
  const number = (value: number | undefined, decimals: number): Line => [
    value === undefined ? 'not stated' : formatNumber(value, decimals),
  ];
  return {
    kind: 'table',
    caption: 'Injections by wall',
    columns: [
      { header: 'Wall' },
      { header: 'Side' },
      { header: 'Injected', look: 'whole' },
      { header: 'Lot' },
      { header: 'Litres per metre', look: 'number' },
      { header: 'Planned', look: 'number' },
      { header: 'Spacing (mm)', look: 'number' },
      { header: 'Depth (mm)', look: 'number' },
      { header: 'Moisture then (% by mass)', look: 'number' },
    ],
    rows: walls.map((one): readonly Line[] => [
      [quoted(one.wall)],
      [one.side],
      [one.first === one.last ? dayText(one.first) : `${dayText(one.first)} to ${dayText(one.last)}`],
      [quoted(one.lots.length === 0 ? 'not stated' : listInWords(one.lots))],
      number(one.litres_per_m, 2),
      number(one.plannedLitres_per_m, 2),
      number(one.spacing_mm, 0),
      number(one.depth_mm, 0),
      number(one.moisture_pct, 1),
    ]),
  };
}

function responseInWords({ response }: InjectionOfTrial, unit: string): string {
  if (response.kind === 'not-estimated')
    return `Whether walls that were given more changed more cannot be computed: ${reasonInWords(response.reason)}.`;
  const { estimate, interval, walls } = response;
  const decimals = decimalsOf(interval);
  return `Among ${countInWords(walls, 'treated wall')} a further litre per metre goes with a change of ${formatSigned(estimate, decimals)} (${unit}; ${levelInWords(interval.level)} interval ${intervalText(interval, decimals)}). The doses were not randomised: a wall may have been given more because it was wetter, thicker or more open, so that this is no effect of the dose.`;
}
