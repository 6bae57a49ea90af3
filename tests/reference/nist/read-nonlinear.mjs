// NIST Statistical Reference Datasets, nonlinear regression: reads data, starting values and certified values from the files
// that Debian's source package ceres-solver carries unchanged in data/nist, and writes nonlinear.json beside this script.
//
//   apt-get source --download-only ceres-solver && tar xf ceres-solver_*.orig.tar.xz
//   node read-nonlinear.mjs ceres-solver-*/data/nist
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** That copy misprints one certified value; other copies of NIST's Roszman1 have this one, and only it gives the certified sum of squares. */
const misprint = { file: 'Roszman1.dat', printed: '1.20196866396E-0', certified: '2.0196866396E-01' };

const folder = process.argv[2];
const files = readdirSync(folder).filter((file) => file.endsWith('.dat')).sort();
const source =
  "NIST Statistical Reference Datasets, nonlinear regression (public domain), as in the source of Debian's ceres-solver 2.1.0, data/nist";
const lines = files.map((file) => JSON.stringify(read(file)));
const text = `{"source":${JSON.stringify(source)},"tool":"read-nonlinear.mjs","cases":[\n${lines.join(',\n')}\n]}\n`;
writeFileSync(new URL('nonlinear.json', import.meta.url), text);

function read(file) {
  const printed = readFileSync(join(folder, file), 'latin1');
  const text = file === misprint.file ? printed.replace(misprint.printed, misprint.certified) : printed;
  const parameters = [...text.matchAll(/^\s*b\d+ =\s+(\S+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$/gm)].map((match) => match.slice(1).map(Number));
  const column = (index) => parameters.map((row) => row[index]);
  const after = (label) => Number(new RegExp(`${label}:\\s+(\\S+)`).exec(text)[1]);
  const rows = text.slice(text.lastIndexOf('Data:')).trim().split('\n').slice(1).map((line) => line.trim().split(/\s+/).map(Number));
  if (rows.length !== after('Number of Observations')) throw new Error(`${file}: ${rows.length} rows`);
  if ([...parameters, ...rows].flat().some((value) => !Number.isFinite(value))) throw new Error(`${file}: not a number`);
  return {
    name: file.replace('.dat', ''),
    difficulty: /(Lower|Average|Higher) Level of Difficulty/.exec(text)[1],
    response: rows.map((row) => row[0]),
    predictors: rows[0].slice(1).map((_, k) => rows.map((row) => row[k + 1])),
    starts: [column(0), column(1)],
    certified: {
      estimates: column(2),
      standardErrors: column(3),
      residualSumOfSquares: after('Residual Sum of Squares'),
      residualDeviation: after('Residual Standard Deviation'),
    },
  };
}
