import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A trial folder in memory: contents by file name. */
export type FolderFiles = Readonly<Record<string, string | Uint8Array>>;

const protocol = {
  format: 'fairwall-trial/1',
  title: 'Four cellar walls',
  claim: 'The device lowers the moisture of the walls within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'treated', role: 'treated' },
    { arm: 'control', role: 'control' },
  ],
  instruments: [
    { instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 },
    { instrument: 'mw', kind: 'microwave' },
  ],
  windows: {
    before: { from: '2024-03-01', to: '2024-05-31' },
    after: { from: '2025-03-01', to: '2025-05-31' },
  },
  allocation: { method: 'matched-pairs', seed: 20240201, by: 'a person outside the trial' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'the owners', interests: 'none' },
  plannedOn: '2024-02-01',
  compare: { treated: ['treated'], untreated: ['control'] },
};

const walls = [
  'wall,arm,block,site,material,thickness_mm,treated_on',
  'w1,treated,a,cellar,brick,240,2024-06-03',
  'w2,control,a,cellar,brick,240,',
  'w3,treated,b,yard,"brick, lime mortar",365.5,2024-06-03',
  'w4,control,b,yard,"brick, lime mortar",365.5,NA',
];

const stations = [
  'station,wall,height_mm,depth_mm',
  ...['w1', 'w2', 'w3', 'w4'].flatMap((wall) => [`low,${wall},200,50`, `high,${wall},1100.5,50`]),
];

const readings = ['date,wall,station,instrument,value,reader,knew_arm'];
const cores = ['date,wall,station,sample,container_g,wet_g,dry_g,humid_g,reader,knew_arm'];
for (const [visit, date] of ['2024-03-12', '2024-05-14T09:30', '2025-03-11', '2025-05-13T09:30'].entries()) {
  for (const [index, wall] of ['w1', 'w2', 'w3', 'w4'].entries()) {
    const fall = visit > 1 && index % 2 === 0 ? 20 : 0;
    for (const [step, station] of ['low', 'high'].entries()) {
      readings.push(`${date},${wall},${station},mw,${(60.5 + index - 15 * step - fall).toFixed(1)},Ada,no`);
      const wet = 52.31 + index / 10 - step - fall / 20;
      cores.push(`${date},${wall},${station},c${visit}${index}${step},12.50,${wet.toFixed(2)},46.25,46.90,Ben,no`);
    }
  }
}
readings.push('2025-05-14,w1,high,mw,<0.5,Ada,unsure', '2025-05-14,w2,,mw,NA,Ada,', '2025-05-15,w2,high,core,7.2,,');
cores.push('2025-05-20,w4,low,late,12.50,NA,46.25,,,');

const climate = [
  'time,place,temperature_c,relative_humidity_pct',
  '2024-03-12T09:00,cellar,11.5,78',
  '2025-03-11T09:00:30Z,cellar,-2.25,81',
  '2025-05-13T09:00+02:00,yard,,100',
];
const blinding = [
  'date,person,role,wall,believed_arm,why',
  '2025-03-11,Ada,reader,w1,control,',
  '2025-03-11,Cleo,occupant,w2,unknown,"said ""no idea"""',
];
const diary = ['date,wall,kind,note', '2024-06-03,w1,installed,', '2024-11-02,,heating,boiler renewed'];

/** A folder with every file of the contract that reads as a trial: two pairs of walls, four visits, cores and a meter. */
export function validFolder(): Record<string, string> {
  const csv = (lines: readonly string[]) => `${lines.join('\n')}\n`;
  return {
    'protocol.json': `${JSON.stringify(protocol, null, 2)}\n`,
    'walls.csv': csv(walls),
    'stations.csv': csv(stations),
    'readings.csv': csv(readings),
    'cores.csv': csv(cores),
    'climate.csv': csv(climate),
    'blinding.csv': csv(blinding),
    'diary.csv': csv(diary),
    'notes.txt': 'not a file of the contract',
  };
}

/** In memory where there is such a folder: thousands are written in a run. */
const place = existsSync('/dev/shm') ? '/dev/shm' : tmpdir();

/** Writes the files into a temporary folder, hands its path on, and removes it afterwards. */
export async function inFolder<Result>(files: FolderFiles, use: (folder: string) => Promise<Result>): Promise<Result> {
  // A promise for each of ten small files takes four times as long.
  const folder = mkdtempSync(join(place, 'trial-'));
  try {
    for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
    return await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
