import type { Side } from '../../analysis/index.js';
import type { AirOfArms } from '../../findings/air/air-of-arms.js';
import type { AirInWindow, AirPlace } from '../../findings/air/air-of-trial.js';
import type { AirRecord } from '../../findings/air/air-record.js';
import { leastMeasured } from '../../findings/air/pressure-by-wall.js';
import { limits } from '../../findings/limits.js';
import { mostHumidityShown_pct, mostHumidityShownMark } from '../../trial/index.js';
import { formatNumber, formatSigned, formatStated } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, paragraph, quoted } from '../document.js';

const whose: Readonly<Record<AirPlace, string>> = {
  treated: 'treated',
  untreated: 'untreated',
  both: 'both',
  elsewhere: 'elsewhere',
};

/** The air in both windows: what could have dried or wetted walls whatever was done to them. */
export function airBlocks(air: readonly AirInWindow[], arms?: AirOfArms, record?: AirRecord): readonly Block[] {
  const blocks = [...windowBlocks(air, arms), ...surfaceBlocks(record), ...aboveSaturationBlocks(record)];
  return blocks.length === 0 ? [] : [{ kind: 'subheading', text: 'The air' }, ...blocks];
}

function windowBlocks(air: readonly AirInWindow[], arms: AirOfArms | undefined): readonly Block[] {
  if (air.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'The air in the windows, means over time and places',
      columns: [
        { header: 'Beside walls' },
        { header: 'Window' },
        { header: 'Places', look: 'number' },
        { header: 'Readings', look: 'number' },
        { header: 'Temperature (°C)', look: 'number' },
        { header: 'Vapour pressure (Pa)', look: 'number' },
        { header: 'Dew point (°C)', look: 'number' },
        { header: 'Absolute humidity (g/m³)', look: 'number' },
        { header: 'Evaporation potential (Pa)', look: 'number' },
      ],
      rows: air.map((each) => [
        [whose[each.place]],
        [each.window],
        [formatNumber(each.places, 0)],
        [formatNumber(each.readings, 0)],
        [formatNumber(each.temperature_c, 1)],
        [formatNumber(each.vapourPressure_pa, 0)],
        [each.dewPoint_c === undefined ? 'none' : formatNumber(each.dewPoint_c, 1)],
        [formatNumber(each.vapourDensity_g_m3, 1)],
        [formatNumber(each.evaporation_pa, 0)],
      ]),
    },
    paragraph(
      'The evaporation potential is the vapour pressure of a wet wall as warm as the air, less that of the air. The larger it is, the faster walls can dry, regardless of the treatment. It is no rate of drying: a wall colder than the air dries more slowly than it says, and one below the dew point takes up water.',
      ...whoseInWords(air),
      ...differenceInWords(arms),
    ),
  ];
}

/** What the air could take from the surfaces, and for how long it wetted them. */
function surfaceBlocks(record: AirRecord | undefined): readonly Block[] {
  const surfaces = record?.surfaces ?? [];
  if (surfaces.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'The walls’ surfaces in the windows, where their temperature was measured: means over time and walls',
      columns: [
        { header: 'Arm' },
        { header: 'Window' },
        { header: 'Walls', look: 'number' },
        { header: 'Surface (°C)', look: 'number' },
        { header: 'Evaporation potential at the surface (Pa)', look: 'number' },
        { header: 'Below the dew point (% of the time)', look: 'number' },
      ],
      rows: surfaces.map((each) => [
        [quoted(each.arm)],
        [each.window],
        [formatNumber(each.walls, 0)],
        [formatNumber(each.surface_c, 1)],
        [formatSigned(each.evaporation_pa, 0)],
        [formatNumber(100 * each.condensingShare, 0)],
      ]),
    },
    paragraph(
      'At the surface, the evaporation potential is the vapour pressure over the wet wall at its own temperature, less the air’s. Below zero the wall took up water from the air on the whole. Below the dew point water condenses on it.',
      ` Where the weather is adjusted for, the walls count as warm as their surfaces or as the air. The surfaces count if ${formatNumber(100 * leastMeasured.value, 0)} % of the readings of every place that stands for a wall have one (${leastMeasured.mark}).`,
    ),
  ];
}

/** Capacitive sensors read up to a few points too much near saturation; the wettest hours must not be lost for it. */
function aboveSaturationBlocks(record: AirRecord | undefined): readonly Block[] {
  if (record === undefined || record.aboveSaturation === 0) return [];
  const { aboveSaturation, humidityReadings, highestShown_pct = 100 } = record;
  return [
    paragraph(
      `${countInWords(aboveSaturation, 'reading')} of ${formatNumber(humidityReadings, 0)} showed a relative humidity above 100 % (up to ${formatStated(highestShown_pct)} %) and ${aboveSaturation === 1 ? 'counts' : 'count'} as 100 %. Near saturation hygrometers show somewhat too much, up to ${mostHumidityShown_pct} % (${mostHumidityShownMark}).`,
    ),
  ];
}

/** The kinds of places that do not explain themselves. */
function whoseInWords(air: readonly AirInWindow[]): readonly string[] {
  const has = (place: AirPlace) => air.some((each) => each.place === place);
  return [
    ...(has('both') ? [' Both: treated and untreated walls stand in the same air there.'] : []),
    ...(has('elsewhere') ? [' Elsewhere: places that are the site of no wall of the comparison.'] : []),
  ];
}

/** Where the arms’ air comes from one record, nothing can differ. */
function differenceInWords(arms: AirOfArms | undefined): readonly string[] {
  if (arms === undefined || arms.arms.every(({ own }) => own === 0)) return [];
  const { treated, untreated } = arms.sides;
  const ownOf = (side: Side) => arms.arms.reduce((sum, arm) => sum + (arm.side === side ? arm.own : 0), 0);
  const changes = ` Each wall counted by the air of its own place (${ownOf('treated')} of ${treated.walls} treated and ${ownOf('untreated')} of ${untreated.walls} untreated walls), else by what was recorded elsewhere. From before to after, the evaporation potential changed by ${formatSigned(treated.change_pa, 0)} Pa beside treated and ${formatSigned(untreated.change_pa, 0)} Pa beside untreated walls.`;
  if (arms.ratio === undefined) return [changes];
  const ratio = ` After over before, treated over untreated, is ${formatNumber(arms.ratio, 2)}; ${formatNumber(limits.airRatioLeast.value, 2)} to ${formatNumber(limits.airRatioMost.value, 2)} counts as alike (${limits.airRatioMost.mark}).`;
  const unlike =
    ' The air changed unlike beside the two: that is a difference between the arms which is not the treatment.';
  return [changes, ratio, ...(arms.airUnlike === true ? [unlike] : [])];
}
