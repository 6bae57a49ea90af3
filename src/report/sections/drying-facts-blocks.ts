import {
  assumedWall,
  evaporationInSun_mm_d,
  fallingStageFactor,
  moistureTransfer_kg_m2_s_pa,
  mostEvaporationUnrecorded_mm_d,
  winterPressure_pa,
} from '../../drying/index.js';
import type { DryingFacts } from '../../findings/drying/drying-facts.js';
import type { ImpliedEvaporation, ImpliedOfWall } from '../../findings/drying/implied-evaporation.js';
import type { TimedWall, WaitOfOneWall, WaitOfTrial } from '../../findings/drying/wait-of-trial.js';
import { reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatNumber, formatStated } from '../../words/format-number.js';
import { countInWords, listInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted } from '../document.js';
import { dayText } from '../words/report-numbers.js';

/** Whether the walls can have dried as they were read to, and by the time they were: told with curves and without. */
export function dryingFactsBlocks(facts: DryingFacts, { protocol }: Opinion): readonly Block[] {
  const margin = `${formatStated(protocol.margin ?? 0)} ${protocol.outcome.unit}`;
  return [...waitBlocks(facts, margin), ...evaporationBlocks(facts.implied)];
}

function waitBlocks({ wait, spread }: DryingFacts, margin: string): readonly Block[] {
  if (wait === undefined || wait.walls.length === 0) return [];
  const treated =
    spread === undefined || spread.days === 0
      ? ''
      : ` They were treated from ${dayText(spread.first)} to ${dayText(spread.last)}, ${countInWords(spread.days, 'day')} apart.`;
  const read = `The after readings of the treated walls lie ${rangeText(wait.walls.map(({ days }) => days))} days after the treatment, each wall counted from its own to the mean day of its readings.${treated}${withoutDayText(wait)}`;
  return [
    { kind: 'subheading', text: 'Time enough to dry?' },
    paragraph(`${read} ${wait.worst === undefined ? noWaitText(wait) : waitText(wait, wait.worst, margin)}`),
  ];
}

function withoutDayText({ withoutDay }: WaitOfTrial): string {
  if (withoutDay.length === 0) return '';
  return ` Of ${countInWords(withoutDay.length, 'further treated wall')} no day of treatment is on record.`;
}

function noWaitText({ reason }: WaitOfTrial): string {
  const why = reason === undefined ? '' : `, because ${reasonInWords(reason)}`;
  return `How long they have to wait is not computed${why}.`;
}

function waitText(wait: WaitOfTrial, worst: TimedWall, margin: string): string {
  const waits = wait.walls.flatMap((wall) => wall.wait ?? []);
  const range = (numberOf: (one: WaitOfOneWall) => number) => rangeText(waits.map(numberOf));
  const verdict =
    wait.tooEarly === 0
      ? 'Every treated wall was read after its wait was over.'
      : `${wait.tooEarly} of ${countInWords(waits.length, 'treated wall')} ${wait.tooEarly === 1 ? 'was' : 'were'} read before the wait was over, ${wait.beforeLeast === 0 ? 'none' : wait.beforeLeast} of them before the least time. The earliest is ${worst.wall}: ${formatNumber(worst.days, 0)} days of ${formatNumber(worst.wait.wait_d, 0)}.`;
  return [
    `To lose the margin, ${margin}, ${waits.length === 1 ? 'this wall needs' : 'these walls need'} ${range(({ least_d }) => least_d)} days at the least, with surfaces that stay wet to the end.`,
    `The wait is ${range(({ wait_d }) => wait_d)} days. Over the whole fall a wall loses on average about one part in ${fallingStageFactor} of what it loses while its surface is wet (our convention).`,
    'Once the surface is dry, water has to come through a dry layer that grows: pure diffusion from a receding front takes longer still.',
    verdict,
    `Computed with both faces open, a transfer of ${transferText('indoors')} (still air indoors; from memory), ${range(({ pressure_pa }) => pressure_pa)} Pa of vapour pressure difference, ${range(({ thickness_mm }) => thickness_mm)} mm and ${range(({ density_kg_m3 }) => density_kg_m3)} kg/m³.${assumedText(waits)}${surfaceText(waits)}`,
  ].join(' ');
}

/** No statement about the air may lengthen a wait, so that what the surfaces show is said beside it. */
function surfaceText(waits: readonly WaitOfOneWall[]): string {
  const pressures = waits.flatMap(({ surface_pa }) => surface_pa ?? []);
  if (pressures.length === 0) return '';
  return ` At the surfaces measured for ${countInWords(pressures.length, 'wall')} the mean was only ${rangeText(pressures)} Pa: such walls dry more slowly, if at all, and the wait is a lower bound.`;
}

/** What stands in where the folder says nothing, or more than counts. */
function assumedText(waits: readonly WaitOfOneWall[]): string {
  const wallsWith = (name: WaitOfOneWall['assumed'][number]) =>
    waits.filter(({ assumed }) => assumed.includes(name)).length;
  const words = {
    thickness: `a thickness of ${assumedWall.thickness_mm} mm`,
    density: `a density of ${assumedWall.density_kg_m3} kg/m³`,
  } as const;
  const told = (['thickness', 'density'] as const).flatMap((name) =>
    wallsWith(name) === 0 ? [] : [`${words[name]} (${countInWords(wallsWith(name), 'wall')})`],
  );
  const material =
    told.length === 0 ? '' : ` Where it is not stated, or larger, our convention counts: ${listInWords(told)}.`;
  if (wallsWith('pressure') === 0) return material;
  return `${material} In ${countInWords(wallsWith('pressure'), 'wall')} without a record of their own place, or with a smaller difference, ${winterPressure_pa} Pa count: winter air indoors (our convention).`;
}

function evaporationBlocks(implied: ImpliedEvaporation): readonly Block[] {
  const heading: Block = { kind: 'subheading', text: 'Can it have evaporated?' };
  if (implied.kind === 'not-computed')
    return [
      heading,
      paragraph(`What the walls must have evaporated is not computed, because ${reasonInWords(implied.reason)}.`),
    ];
  const { arms, walls, withoutThickness } = implied;
  return [
    heading,
    {
      kind: 'table',
      caption:
        'Water that left the walls from their last readings before to the visit after by which they had fallen fastest, means over walls',
      columns: [
        { header: 'Arm' },
        { header: 'Walls', look: 'number' },
        { header: 'Days', look: 'number' },
        { header: 'Lost (kg/m²)', look: 'number' },
        { header: 'Evaporation that this implies (mm a day)', look: 'number' },
        { header: 'Most of one wall (mm a day)', look: 'number' },
        { header: 'What the air could take (mm a day)', look: 'number' },
        { header: 'Walls above that', look: 'number' },
      ],
      rows: arms.map((arm): readonly Line[] => [
        [quoted(arm.arm)],
        [formatNumber(arm.walls, 0)],
        [formatNumber(arm.days, 0)],
        [formatNumber(arm.lost_kg_m2, 1)],
        [formatNumber(arm.evaporation_mm_d, 2)],
        [formatNumber(arm.most_mm_d, 2)],
        [formatNumber(arm.air_mm_d, 2)],
        [formatNumber(arm.exceeding, 0)],
      ]),
    },
    paragraph(
      [
        'Water lost is the fall of a wall’s moisture times its thickness and dry density; 1 kg/m² is 1 mm, and a negative number is water taken up. The fastest visit is taken of those a week and more apart (our convention), so that the number is high rather than low.',
        ...densityText(walls),
        ...(withoutThickness.length === 0
          ? []
          : [`Excluded, without a thickness on record: ${countInWords(withoutThickness.length, 'wall')}.`]),
        ...limitText(walls),
        beyondText(implied.arms),
      ].join(' '),
    ),
  ];
}

function densityText(walls: readonly ImpliedOfWall[]): readonly string[] {
  const assumed = walls.filter(({ isDensityStated }) => !isDensityStated).length;
  if (assumed === 0) return [];
  return [
    `The density is taken as ${assumedWall.density_kg_m3} kg/m³ in ${countInWords(assumed, 'wall')}, for none is stated (our convention).`,
  ];
}

/** What the limit rests on, by walls. */
function limitText(walls: readonly ImpliedOfWall[]): readonly string[] {
  const count = (of: (wall: ImpliedOfWall) => boolean) => walls.filter(of).length;
  const records = [
    { walls: count(({ air }) => air.source === 'own'), text: 'of their own place' },
    { walls: count(({ air }) => air.source === 'general'), text: 'of places that are no wall’s site' },
    { walls: count(({ air }) => air.source === 'other-walls'), text: 'beside other walls' },
  ].filter((record) => record.walls > 0);
  const [unrecorded, sunny, indoors] = [
    count(({ air }) => air.source === 'none'),
    count(({ air }) => air.exposure === 'outdoors'),
    count(({ air }) => air.source !== 'none' && air.exposure === 'indoors'),
  ];
  const outdoors = records.reduce((sum, record) => sum + record.walls, 0) - indoors;
  const transfers = [
    ...(outdoors === 0 ? [] : [`${transferText('outdoors')} outdoors or where nothing says which`]),
    ...(indoors === 0 ? [] : [`${transferText('indoors')} indoors`]),
  ];
  const least = formatStated(mostEvaporationUnrecorded_mm_d);
  const isRaised = walls.some(({ air }) => air.isRaised);
  return [
    'What the air could take is a high limit: both faces open, wet to the end and as warm as the air.',
    ...(records.length === 0
      ? []
      : [
          `It is the mean vapour pressure difference of those days, times a transfer of ${listInWords(transfers)} (from memory).`,
          `That difference comes from the record ${listInWords(records.map((record) => `${record.text} (${countInWords(record.walls, 'wall')})`))}.`,
        ]),
    ...(isRaised
      ? [
          `Heating is on record and the air of the heated rooms is not. The limit is therefore at least ${least} mm a day and face, the most that is told of walls (from memory, weak).`,
        ]
      : []),
    ...(unrecorded === 0
      ? []
      : [
          `In ${countInWords(unrecorded, 'wall')} without a record over half of the days it is ${least} mm a day and face, the most that is told of walls (from memory, weak).`,
        ]),
    ...(sunny === 0
      ? []
      : [
          `In ${countInWords(sunny, 'wall')} outdoors ${formatStated(evaporationInSun_mm_d)} mm a day are added for sunshine, 100 W/m² absorbed (our convention).`,
        ]),
  ];
}

function beyondText(arms: Extract<ImpliedEvaporation, { readonly kind: 'computed' }>['arms']): string {
  const beyond = arms.filter(({ exceedsAir }) => exceedsAir).map(({ arm }) => arm);
  if (beyond.length > 0)
    return `The walls of ${listInWords(beyond)} lost more than the air could take. Samples from the surface alone, another instrument or a face that was not counted would explain it; drying of the whole wall does not.`;
  return arms.some(({ exceeding }) => exceeding > 0)
    ? 'No arm as a whole lost more than that; single walls may do so by the scatter of their readings.'
    : 'No wall lost more than that.';
}

function transferText(where: keyof typeof moistureTransfer_kg_m2_s_pa): string {
  return `${formatStated(1e9 * moistureTransfer_kg_m2_s_pa[where])} × 10⁻⁹ kg/(m² s Pa)`;
}

function rangeText(values: readonly number[]): string {
  const [least, most] = [formatNumber(Math.min(...values), 0), formatNumber(Math.max(...values), 0)];
  return least === most ? least : `${least} to ${most}`;
}
