import type { Side } from '../../analysis/index.js';
import { formatNumber, formatSigned } from '../../charts/format-number.js';
import type { AirOfArms } from '../air/air-of-arms.js';
import type { AirInWindow, AirPlace } from '../air/air-of-trial.js';
import { limits } from '../threats/limits.js';
import { type Block, paragraph } from './document.js';

const whose: Readonly<Record<AirPlace, string>> = {
  treated: 'treated',
  untreated: 'untreated',
  both: 'both kinds',
  elsewhere: 'elsewhere',
};

/** The air in both windows: what could have dried or wetted walls whatever was done to them. */
export function airBlocks(air: readonly AirInWindow[], arms?: AirOfArms): readonly Block[] {
  if (air.length === 0) return [];
  return [
    { kind: 'subheading', text: 'The air' },
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
        { header: 'Water in it (g/m³)', look: 'number' },
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
      'The evaporation potential is how much more vapour pressure a wet wall as warm as the air has than the air: the larger, the faster walls can dry, whatever was done to them. It is no rate of drying, and a wall colder than the air dries more slowly than it says.',
      ...whoseInWords(air),
      ...differenceInWords(arms),
    ),
  ];
}

/** The kinds of places that do not explain themselves. */
function whoseInWords(air: readonly AirInWindow[]): readonly string[] {
  const has = (place: AirPlace) => air.some((each) => each.place === place);
  return [
    ...(has('both') ? [' Both kinds: treated and untreated walls stand in the same air there.'] : []),
    ...(has('elsewhere') ? [' Elsewhere: places that are the site of no wall of the comparison.'] : []),
  ];
}

/** Where the arms’ air comes from one record, nothing can differ. */
function differenceInWords(arms: AirOfArms | undefined): readonly string[] {
  if (arms === undefined || arms.arms.every(({ own }) => own === 0)) return [];
  const { treated, untreated } = arms.sides;
  const ownOf = (side: Side) => arms.arms.reduce((sum, arm) => sum + (arm.side === side ? arm.own : 0), 0);
  const changes = ` Each wall counted by the air of its own place (${ownOf('treated')} of ${treated.walls} treated and ${ownOf('untreated')} of ${untreated.walls} untreated walls), else by what was recorded elsewhere: from before to after the evaporation potential changed by ${formatSigned(treated.change_pa, 0)} Pa beside treated and ${formatSigned(untreated.change_pa, 0)} Pa beside untreated walls.`;
  if (arms.ratio === undefined) return [changes];
  const ratio = ` After over before, treated over untreated, is ${formatNumber(arms.ratio, 2)}; ${formatNumber(limits.airRatioLeast.value, 2)} to ${formatNumber(limits.airRatioMost.value, 2)} counts as alike (${limits.airRatioMost.mark}).`;
  const unlike =
    ' The air changed unlike beside the two: that is a difference between the arms which is not the treatment.';
  return [changes, ratio, ...(arms.airUnlike === true ? [unlike] : [])];
}
