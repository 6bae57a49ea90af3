import { formatNumber, formatSigned } from '../../charts/format-number.js';
import type { AirInWindow, AirPlace } from '../air/air-of-trial.js';
import { type Block, paragraph } from './document.js';

const whose: Readonly<Record<AirPlace, string>> = {
  treated: 'treated',
  untreated: 'untreated',
  both: 'both kinds',
  elsewhere: 'elsewhere',
};

/** The air in both windows: what could have dried or wetted walls whatever was done to them. */
export function airBlocks(air: readonly AirInWindow[]): readonly Block[] {
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
      ...differenceInWords(air),
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

function differenceInWords(air: readonly AirInWindow[]): readonly string[] {
  const changeOf = (place: AirPlace) => {
    const [before, after] = (['before', 'after'] as const).map((window) =>
      air.find((each) => each.place === place && each.window === window),
    );
    return before === undefined || after === undefined ? undefined : after.evaporation_pa - before.evaporation_pa;
  };
  const [treated, untreated] = [changeOf('treated'), changeOf('untreated')];
  if (treated === undefined || untreated === undefined) return [];
  return [
    ` From before to after the evaporation potential changed by ${formatSigned(treated, 0)} Pa beside treated and ${formatSigned(untreated, 0)} Pa beside untreated walls; what differs between the two is a difference between the arms that is not the treatment.`,
  ];
}
