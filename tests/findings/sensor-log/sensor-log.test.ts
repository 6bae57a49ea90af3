import { describe, expect, it } from 'vitest';
import { sensorPlaces } from '../../../src/findings/sensor-log/sensor-places.js';
import { formOpinion } from '../../../src/opinion/index.js';
import type { Figure } from '../../../src/report/document.js';
import { limitsSection } from '../../../src/report/sections/limits-section.js';
import { sensorLogSection } from '../../../src/report/sections/sensor-log-section.js';
import type { Station } from '../../../src/trial/index.js';
import { holed, logged, sensors, whole } from '../../helpers/logged-trial.js';

const origin = { file: 'stations.csv', row: 2 };

describe('the log in the report', () => {
  const trial = logged([...sensors.slice(0, 3).map(whole), holed('U2', 3)]);

  it('is drawn with the days left out, by wall and from the top down', () => {
    expect(sensorPlaces(trial).map(({ sensor }) => sensor)).toEqual(['T2', 'T1', 'U2', 'U1']);
    const section = sensorLogSection(formOpinion(trial));
    const figure = section?.blocks.find((block): block is Figure => block.kind === 'figure');
    const description = figure?.charts[0]?.description ?? '';
    expect(description).toContain('moisture in % by volume, 4 sensors');
    expect(description).toMatch(/T T2 600 mm: .*T T1 300 mm: .*U U2 600 mm: [^:]*, 3 days left out\. U U1 300 mm/);
  });

  it('draws no more sensors than a page holds, those with faults first, and says how many are not drawn', () => {
    const names = Array.from({ length: 33 }, (_, k) => `S${k + 10}`);
    const stations = names.map((sensor): Station => ({ station: sensor, wall: 'T', height_mm: 300, origin }));
    const records = names.map((sensor, k) => ({ ...whole(sensor), spikes: { count: k } }));
    const section = sensorLogSection(formOpinion(logged(records, { stations })));
    const figure = section?.blocks.find((block): block is Figure => block.kind === 'figure');
    expect(figure?.caption).toContain('3 sensors with fewer faults are not drawn');
    expect(figure?.charts[0]?.description).not.toMatch(/S10|S11|S12/);
  });

  it('says in the limits that no wall could be compared, and no average, where there is none', () => {
    const text = JSON.stringify(limitsSection(formOpinion(trial)));
    expect(text).toContain('No wall could be compared.');
    expect(text).not.toMatch(/The difference is an average|No heights were recorded/);
  });
});
