import { type CurrentChartData, currentChart, describeCurrentChart } from '../../charts/index.js';
import type { CurrentTrend } from '../../findings/electrical/current-trend.js';
import type { ElectricalWall } from '../../findings/electrical/electrical-of-trial.js';
import type { ElectricalArm } from '../../findings/electrical/means-of-arm.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatPValue, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords, listInWords } from '../../words/quantity.js';
import {
  type Block,
  type Figure,
  type Line,
  paragraph,
  quoted,
  type Section,
  strong,
  type Table,
} from '../document.js';
import { missingInWords } from '../words/missing-in-words.js';
import { narrowWidth } from '../writers/narrow-width.js';

const days = (seconds: number) => shown(seconds / 86_400);
const none = 'not stated';

/** What the electrodes did, wall by wall, and their charge beside the water. */
export function electricalSection(opinion: Opinion): Section | undefined {
  const { electrical } = opinion;
  if (electrical === undefined || electrical.walls.length === 0) return undefined;
  return {
    id: 'electrical',
    heading: 'The electrodes',
    blocks: [
      paragraph(
        'Charge is the integral of the current over the time on (trapezoid rule). What happened between two readings is not known. ',
        strong('A charge shows that a current flowed, and says nothing of whether walls dried.'),
      ),
      ...chartBlocks(opinion),
      armsTable(electrical.arms),
      ...(electrical.trend === undefined ? [] : [paragraph(trendInWords(electrical.trend))]),
      {
        kind: 'table',
        caption: 'Electrodes by wall',
        columns: [
          { header: 'Wall' },
          { header: 'Arm' },
          { header: 'Charge (Ah)', look: 'number' },
          { header: 'Energy (Wh)', look: 'number' },
          { header: 'Days on', look: 'number' },
          { header: 'Days off', look: 'number' },
          { header: 'On, of the planned time', look: 'number' },
          { header: 'Mean current (mA)', look: 'number' },
          { header: 'First current kept', look: 'number' },
          { header: 'Resistance, first to last (Ω)', look: 'whole' },
        ],
        rows: electrical.walls.map(rowOf),
      },
      paragraph(
        '“First current kept” is the charge over what the mean current of the first 30 days would have carried in the same time on. Contact, drying near the electrode and corrosion of anodes lower it, and so does a drying wall.',
      ),
      ...ledgerBlocks(electrical.ledger),
    ],
  };
}

/** None where no current is on record. */
function chartBlocks({ electrical, timeline }: Opinion): readonly Figure[] {
  if (electrical === undefined || electrical.currents.length === 0) return [];
  const { arms, currents } = electrical;
  const data: CurrentChartData = {
    title: 'Current of every circuit over time',
    unit: 'mA',
    arms: arms.map(({ arm }) => ({
      arm,
      circuits: currents
        .filter((one) => one.arm === arm)
        .map(({ wall, runs }) => ({
          wall,
          runs: runs.map((run) => run.map(({ day, current_a }) => ({ day, value: 1000 * current_a }))),
        })),
    })),
    marks: timeline.treatedDays.slice(0, 1).map(({ day }) => ({ day, label: 'treatment' })),
  };
  return [
    {
      kind: 'figure',
      caption:
        'Currents in size, regardless of their direction. Lines join the readings: what happened between them is not known.',
      charts: [
        {
          wide: currentChart(data),
          narrow: currentChart(data, { width: narrowWidth }),
          description: describeCurrentChart(data),
        },
      ],
    },
  ];
}

function armsTable(arms: readonly ElectricalArm[]): Table {
  const share = (one: number | undefined): Line => [one === undefined ? none : percent(one)];
  return {
    kind: 'table',
    caption: 'Electrodes by arm: means over walls',
    columns: [
      { header: 'Arm' },
      { header: 'Walls', look: 'number' },
      { header: 'Charge (Ah)', look: 'number' },
      { header: 'Mean current (mA)', look: 'number' },
      { header: 'On, of the planned time', look: 'number' },
      { header: 'First current kept', look: 'number' },
      { header: 'Time against the polarity', look: 'number' },
    ],
    rows: arms.map(({ arm, walls, charge_c, current_a, onShare, currentKept, reversedShare }) => [
      ...[[quoted(arm)], [`${walls}`], [shown(charge_c / 3600)], [shown(1000 * current_a)]],
      ...[share(onShare), share(currentKept), share(reversedShare)],
    ]),
  };
}

function trendInWords({ walls, trendPer30Days, interval, pValue }: CurrentTrend): string {
  const signed = (one: number) => formatSigned(100 * one, 1);
  const inside = [
    ...(interval === undefined
      ? []
      : [`${levelInWords(interval.level)} interval ${signed(interval.lower)} to ${signed(interval.upper)} %`]),
    ...(pValue === undefined ? [] : [formatPValue(pValue)]),
  ];
  const limits = inside.length === 0 ? '' : ` (${inside.join(', ')})`;
  return `In 30 days the current of ${countInWords(walls, 'treated wall')} changed by ${signed(trendPer30Days)} % of its mean${limits}: the slope of a linear fit by circuit, walls as the units.`;
}

function rowOf({ wall, arm, charge_c, energy_j, on_s, off_s, onShare, current_a, circuits }: ElectricalWall): Line[] {
  const kept = circuits.flatMap(({ currentKept }) => (currentKept === undefined ? [] : [percent(currentKept)]));
  const ohms = circuits.flatMap(({ resistance_ohm: one }) =>
    one === undefined ? [] : [`${shown(one.first)} to ${shown(one.last)}`],
  );
  return [
    [quoted(wall)],
    [quoted(arm)],
    [shown(charge_c / 3600)],
    [energy_j === undefined ? none : shown(energy_j / 3600)],
    [days(on_s)],
    [days(off_s)],
    [onShare === undefined ? none : percent(onShare)],
    [shown(1000 * current_a)],
    [kept.length === 0 ? none : kept.join('; ')],
    [ohms.length === 0 ? none : ohms.join('; ')],
  ];
}

function ledgerBlocks(ledger: NonNullable<Opinion['electrical']>['ledger']): readonly Block[] {
  if (ledger === undefined) return [];
  const { walls, charge_c, moved_kg, electrolysed_kg, lost_kg, missing } = ledger;
  const row = (what: string, amount: string, how: string): Line[] => [[what], [amount], [how]];
  const lost =
    lost_kg === undefined
      ? row(
          'Lost by the treated walls less the untreated',
          'not known',
          `Missing: ${listInWords(missing.map(missingInWords))}`,
        )
      : row(
          'Lost by the treated walls less the untreated',
          shown(lost_kg),
          'the difference between the arms × area × thickness × dry density',
        );
  return [
    {
      kind: 'table',
      caption: `Ledger: a charge of ${shown(charge_c / 3600)} Ah (mean of ${countInWords(walls, 'treated wall')} with a charge) beside the water of a wall`,
      columns: [
        { header: 'Water' },
        { header: 'kg a wall', look: 'whole' },
        { header: 'How it was found', look: 'prose' },
      ],
      rows: [
        lost,
        row(
          'Electro-osmosis could move at most',
          `${shown(moved_kg.low)} to ${shown(moved_kg.high)}`,
          'charge × permeability / conductivity: 10⁻⁹ to 10⁻⁸ m²/(V·s) as told of soils, 0.1 to 0.001 S/m (from memory, weak); none where lime and salts take the flow away',
        ),
        row('Taken apart by electrolysis, at most', shown(electrolysed_kg), 'Faraday’s law, two electrons a molecule'),
      ],
    },
    paragraph(
      'The ledger compares sizes. Water that electro-osmosis could have moved is not thereby water that it moved: evaporation empties walls too.',
    ),
  ];
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

function shown(value: number): string {
  return Number(value.toPrecision(3)).toString().replace('-', '−');
}
