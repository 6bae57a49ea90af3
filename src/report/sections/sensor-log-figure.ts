import { describeSensorLogChart, type SensorLogChartData, sensorLogChart } from '../../charts/index.js';
import { faultsOf, spanOfLog, usedDays } from '../../findings/sensor-log/days-of-log.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { SensorLog } from '../../trial/index.js';
import { formatNumber } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import type { Figure } from '../document.js';
import { narrowWidth } from '../writers/narrow-width.js';

/** Strips that a page holds beside its text. */
const mostDrawn = 30;

/** The daily means of every sensor, those with faults first where they are more than a page holds. */
export function sensorLogFigure({ protocol, sensorPlaces: places = [] }: Opinion, log: SensorLog): readonly Figure[] {
  const span = spanOfLog(log);
  if (span === undefined) return [];
  const records = new Map(log.sensors.map((one) => [one.sensor, one]));
  const worst = new Set(
    log.sensors
      .toSorted((one, other) => faultsOf(other) - faultsOf(one))
      .slice(0, mostDrawn)
      .map(({ sensor }) => sensor),
  );
  const drawn = places.flatMap((place) => {
    const record = records.get(place.sensor);
    return record !== undefined && worst.has(place.sensor) ? [{ ...place, record }] : [];
  });
  const isOneWall = new Set(places.map(({ wall }) => wall)).size === 1;
  const { unit, quantity, instrument } = protocol.outcome;
  const isOutcome = protocol.instruments.some((one) => one.instrument === instrument && one.kind === 'embedded-sensor');
  const data: SensorLogChartData = {
    title: 'The sensors’ daily means',
    quantity: isOutcome ? quantity : 'reading',
    unit: isOutcome ? unit : 'the sensors’ units',
    sensors: drawn.map(({ sensor, wall, height_mm, record }) => ({
      label: [isOneWall ? '' : wall, sensor, height_mm === undefined ? '' : `${formatNumber(height_mm, 0)} mm`]
        .filter((part) => part !== '')
        .join(' '),
      days: usedDays(record),
    })),
    ...span,
  };
  const more = places.length - drawn.length;
  return [
    {
      kind: 'figure',
      caption: `In each wall the highest sensor is on top.${more === 0 ? '' : ` ${countInWords(more, 'sensor')} with fewer faults ${more === 1 ? 'is' : 'are'} not drawn.`}`,
      charts: [
        {
          wide: sensorLogChart(data),
          narrow: sensorLogChart(data, { width: narrowWidth }),
          description: describeSensorLogChart(data),
        },
      ],
    },
  ];
}
