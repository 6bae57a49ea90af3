import { faults } from '../fault-trials.js';
import type { FaultRow, FaultsFile, SoundRow } from './judge-trials.js';

/** What is asked of the table: in percent. */
export const REQUIRED = { foundWhereLarge: 80, falseAlarms: 5, soundFirm: 90 } as const;

export function percent(count: number, trials: number): number {
  return (100 * count) / trials;
}

export function faultsTable(file: FaultsFile): string {
  const { seed } = file;
  const domains = [...new Set(faults.map(({ domain }) => domain))];
  return `# Are faults found, and sound trials left alone?

Made by ${file.source}; not edited by hand. Each fault is planted in so many sound trials (seeds from ${seed}), which are judged with and without
it. "Found" is the percentage of trials with the fault in which the search named, or one of them, finds it; "false alarms" that of the
same trials without it. The last column counts the evidence words of the trials with the fault: firm, fair, shaky, none.

A sound trial has eight treated walls and eight with a sham, randomised, three heights and two depths, three visits before and three after
in the same months a year apart, weighed cores, and leaves nothing unsaid; unless a fault needs a meter, sensors, more visits or arms, or two walls.
Standard deviations in percent by mass: walls 1.5, their changes 0.9, those of stations 0.6, readings 0.3; the margin is 2. Required: at least
${REQUIRED.foundWhereLarge} % found, at most ${REQUIRED.falseAlarms} % false alarms, at least ${REQUIRED.soundFirm} % of sound trials firm.
A rate of 5 % has a Monte Carlo error of ${errorOf(500)} points with 500 trials and of ${errorOf(60)} with 60. \`npm run coverage:faults\` makes 500 of every row that has
other numbers, or that comes out otherwise now.

${domains.map((domain) => domainTable(file, domain)).join('\n')}
## Sound trials

| design | true effect | trials | firm, % | fair, % | shaky, % | none, % | found though nothing is wrong, % |
| --- | ---: | ---: | ---: | ---: | ---: | ---: | --- |
${file.sound.map((row) => soundLine(row)).join('\n')}
`;
}

/** Of a rate of 5 %, in points. */
function errorOf(trials: number): string {
  return (100 * Math.sqrt((0.05 * 0.95) / trials)).toFixed(1);
}

function domainTable(file: FaultsFile, domain: string): string {
  const lines = faults.flatMap((fault) => {
    const row = file.faults.find(({ name }) => name === fault.name);
    if (fault.domain !== domain || row === undefined) return [];
    const { trials, found, falseAlarms, evidence } = row;
    const cells = [
      fault.planted + (fault.size === 'slight' ? ' (slight: chance may hide it)' : ''),
      fault.codes.map((code) => `\`${code}\``).join(' or '),
      `${trials}`,
      percent(found, trials).toFixed(1),
      percent(falseAlarms, trials).toFixed(1),
      wordsOf(evidence),
    ];
    return [`| ${cells.join(' | ')} |`];
  });
  return `## ${domain.charAt(0).toUpperCase()}${domain.slice(1)}

| planted | looked for | trials | found, % | false alarms, % | evidence |
| --- | --- | ---: | ---: | ---: | --- |
${lines.join('\n')}
`;
}

function wordsOf({ firm, fair, shaky, none }: FaultRow['evidence']): string {
  return [firm, fair, shaky, none].join(', ');
}

function soundLine({ design, effect, trials, evidence, codes }: SoundRow): string {
  const share = (count: number) => percent(count, trials).toFixed(1);
  const { firm, fair, shaky, none } = evidence;
  const found = Object.entries(codes).map(([code, count]) => `${code} ${share(count)}`);
  const cells = [design, `${effect}`, `${trials}`, ...[firm, fair, shaky, none].map(share), found.join(', ')];
  return `| ${cells.join(' | ')} |`;
}
