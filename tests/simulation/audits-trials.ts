import {
  type Answer,
  baselineDifference,
  blindingByRole,
  carryOver,
  designFromReadings,
  effectBeforeTreatment,
  effectOutOfReach,
  readingsByKnowledge,
  type SurrogateAudit,
  shamAgainstControl,
  surrogateAudit,
  untreatedOutside,
} from '../../src/analysis/index.js';
import type { MoistureReading } from '../../src/moisture/index.js';
import { normalDraws, type RandomStream, randomStream, uniform } from '../../src/statistics/index.js';
import type { Protocol, Trial } from '../../src/trial/index.js';

/** Counted by themselves, so that a test can begin the simulation again. */
const FIRST = 40;
const WALLS = 20;
const SEED = 20240505;
const EFFECT = -2;
const EFFECT_ON_STAND_IN = -15;
/** Standard deviations: a wall's own change, and a reading of the meter. */
const OWN = 0.7;
const METER = 2;
/** What the stand-in takes from a wall's own change where it foretells moisture. */
const FOLLOWS = 5;

const faults = [
  'guesses',
  'knowing',
  'drift',
  'reach',
  'baseline',
  'sham',
  'neighbours',
  'standIn',
  'outside',
] as const;
type Fault = (typeof faults)[number];

const protocol: Protocol = {
  title: 'Simulated',
  claim: 'none',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'device', role: 'treated' },
    { arm: 'sham', role: 'sham' },
    { arm: 'plain', role: 'control' },
  ],
  instruments: [
    { instrument: 'core', kind: 'gravimetric' },
    { instrument: 'meter', kind: 'microwave' },
  ],
  windows: { before: { from: '2024-03-01', to: '2024-05-31' }, after: { from: '2025-03-01', to: '2025-05-31' } },
  allocation: { method: 'randomised', by: 'a seed' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'none', interests: 'none' },
  unaffectedAbove_mm: 1500,
};
const beforeDays = ['2024-03-10', '2024-04-01', '2024-04-20', '2024-05-15'];
const afterDays = ['2025-03-10', '2025-05-01'];
const origin = { file: 'simulated', row: 2 };

/** Ten treated and ten untreated walls, five of them with a sham, one low and one high station; the treatment takes 2 off the low one. */
function simulated(
  stream: RandomStream,
  fault: Fault | undefined,
): { trial: Trial; readings: readonly MoistureReading[] } {
  const draws = normalDraws(stream, 4_000);
  let next = 0;
  const noise = (deviation: number) => deviation * (draws[next++] as number);
  const readings: MoistureReading[] = [];
  const walls = Array.from({ length: WALLS }, (_, index) => ({
    wall: `W${index}`,
    isTreated: index < WALLS / 2,
    arm: index < WALLS / 2 ? 'device' : index < (3 * WALLS) / 4 ? 'sham' : 'plain',
  }));
  for (const { wall, isTreated, arm } of walls) {
    const isBeside = !isTreated && Number(wall.slice(1)) % 2 === 0;
    const level = 8 + noise(1.5) + (fault === 'baseline' && isTreated ? 2.5 : 0);
    const own = noise(OWN);
    const acted = fault === 'sham' && arm === 'sham' ? -3.5 : 0;
    const moved = fault === 'outside' && arm === 'plain' ? -3.5 : 0;
    const change = own + acted + moved + (isTreated ? EFFECT : 0) + (fault === 'neighbours' && isBeside ? -3 : 0);
    const turn = (isTreated ? EFFECT_ON_STAND_IN : 0) + (fault === 'standIn' ? FOLLOWS * own : 0) + noise(3);
    const read = (day: string, station: string, instrument: string, value: number, knewArm: 'yes' | 'no') =>
      readings.push({ day, wall, station, instrument, value: { kind: 'measured', value }, knewArm, origin });
    for (const [at, day] of beforeDays.entries()) {
      const drift = fault === 'drift' && isTreated && at >= beforeDays.length / 2 ? -1.5 : 0;
      for (const station of ['low', 'high']) read(day, station, 'core', level + drift + noise(0.8), 'no');
      read(day, 'low', 'meter', 40 + noise(METER), 'no');
    }
    read('2024-10-01', 'low', 'meter', 40 + turn + noise(METER), 'no');
    for (const day of afterDays) {
      for (const knewArm of ['no', 'yes'] as const) {
        const hope = fault === 'knowing' && knewArm === 'yes' && isTreated ? -1.5 : 0;
        read(day, 'low', 'core', level + change + hope + noise(0.8), knewArm);
        read(day, 'high', 'core', level + own + (fault === 'reach' && isTreated ? -1.2 : 0) + noise(0.8), knewArm);
      }
    }
  }
  const trial: Trial = {
    protocol,
    walls: walls.map(({ wall, isTreated, arm }, index) => ({
      ...{ wall, arm, treatedOn: '2024-06-10', origin },
      neighbours: isTreated && index % 2 === 0 ? [`W${index + WALLS / 2}`] : [],
    })),
    stations: walls.flatMap(({ wall }) =>
      [300, 1800].map((height_mm) => ({ station: height_mm === 300 ? 'low' : 'high', wall, height_mm, origin })),
    ),
    beliefs: walls.map(({ wall, isTreated }) => {
      const right = uniform(stream) < (fault === 'guesses' ? 0.8 : 0.5);
      const believedArm = right === isTreated ? 'device' : 'sham';
      return { date: '2025-03-01', person: 'R1', role: 'reader', wall, believedArm, origin };
    }),
    ...{ readings: [], cores: [], climate: [], events: [] },
    source: { fingerprint: '0', files: [] },
  } as unknown as Trial;
  return { trial, readings };
}

const warns = (answer: Answer): boolean => answer.kind === 'estimated' && (answer.estimate.pValue ?? 1) < 0.05;
const none: Answer = { kind: 'not-estimated', notEstimated: { id: '', reason: { code: 'too-few-walls' } } };

const audits: Readonly<Record<Fault, (trial: Trial, readings: readonly MoistureReading[]) => boolean>> = {
  guesses: (trial) => (blindingByRole(trial)[0]?.pValue ?? 1) < 0.05,
  knowing: (trial, readings) =>
    warns(
      readingsByKnowledge(trial, cores(readings), { design: designFromReadings(trial, cores(readings)), primary: none })
        .contrast,
    ),
  drift: (trial, readings) => warns(effectBeforeTreatment(trial, cores(readings))),
  reach: (trial, readings) => warns(effectOutOfReach(trial, cores(readings))),
  baseline: (trial, readings) => warns(baselineDifference(trial, designFromReadings(trial, cores(readings)))),
  sham: (trial, readings) => shamAgainstControl(trial, cores(readings)).some(warns),
  neighbours: (trial, readings) => warns(carryOver(trial, designFromReadings(trial, cores(readings)))),
  standIn: (trial, readings) => warns(auditOf(trial, readings).prediction),
  outside: (trial, readings) => {
    const compare = { treated: ['device'], untreated: ['sham'] };
    return untreatedOutside({ ...trial, protocol: { ...trial.protocol, compare } }, cores(readings)).some(warns);
  },
};

function auditOf(trial: Trial, readings: readonly MoistureReading[]): SurrogateAudit {
  const meter = readings.filter(({ instrument }) => instrument === 'meter');
  const audit = surrogateAudit(trial, designFromReadings(trial, cores(readings)), meter, { instrument: 'meter' });
  if ('code' in audit) throw new Error(audit.code);
  return audit;
}

function cores(readings: readonly MoistureReading[]): readonly MoistureReading[] {
  return readings.filter(({ instrument }) => instrument === 'core');
}

const names: Readonly<Record<Fault, readonly [audit: string, planted: string]>> = {
  guesses: ['arms guessed: more correct guesses than expected by chance', 'four guesses in five right'],
  knowing: ['knowing less blind readings', 'knowing readers take 1.5 off treated walls'],
  drift: ['an effect before the treatment', 'treated walls 1.5 lower in the later half'],
  reach: ['an effect where none can be', '1.2 off above the reach of the treatment'],
  baseline: ['walls unlike at the start', 'treated walls start 2.5 wetter'],
  sham: ['a sham that acts, five walls against five', 'the sham takes 3.5 off'],
  neighbours: ['carry-over to neighbours', '3 off untreated walls beside a treated one'],
  standIn: ['a stand-in foretells moisture inside arms', 'it follows the wall’s own change, correlation about 0.68'],
  outside: ['untreated walls outside the comparison, five against five', 'they lose 3.5 by something else'],
};

/** Trials of some kind that had something, and how many of the first ones. */
export interface Tally {
  readonly count: number;
  readonly first: number;
}

interface AuditRow {
  readonly fault: Fault;
  readonly alarms: Tally;
  readonly found: Tally;
}

interface ShareRow {
  readonly planted: boolean;
  readonly truth: number;
  readonly estimated: Tally;
  /** Of those estimated. */
  readonly held: Tally;
}

export interface AuditsFile {
  readonly source: string;
  readonly trials: number;
  readonly audits: readonly AuditRow[];
  readonly shares: readonly ShareRow[];
}

/** Everything, from a number of simulated trials a cell. */
export function simulateAudits(trials: number): AuditsFile {
  return {
    source: '`npm run coverage:audits`',
    trials,
    audits: faults.map((fault) => ({
      fault,
      alarms: warnings(fault, false, trials),
      found: warnings(fault, true, trials),
    })),
    shares: [false, true].map((planted) => shareCoverage(planted, trials)),
  };
}

/** The first trials of every cell again, in the counts' own shape. */
export const firstAudits = (): AuditsFile => simulateAudits(FIRST);

function warnings(kind: Fault, planted: boolean, trials: number): Tally {
  let [count, first] = [0, 0];
  for (let trialNumber = 0; trialNumber < trials; trialNumber += 1) {
    const stream = randomStream(SEED + 10 * faults.indexOf(kind) + (planted ? 1 : 0) + 1000 * trialNumber);
    const { trial, readings } = simulated(stream, planted ? kind : undefined);
    if (audits[kind](trial, readings)) count += 1;
    if (trialNumber < FIRST) first = count;
  }
  return { count, first };
}

/** The slope of the population inside arms, times the effect on the stand-in, over the effect on moisture. */
function trueShare(planted: boolean): number {
  const follows = planted ? FOLLOWS : 0;
  // The stand-in's own spread: what it takes from the wall, 3 of its own, and readings: four averaged before, one later.
  const spread = (follows * OWN) ** 2 + 3 ** 2 + METER ** 2 / beforeDays.length + METER ** 2;
  // A wall's change is the mean of its two stations, and the treatment acts on the low one.
  return (((follows * OWN ** 2) / spread) * EFFECT_ON_STAND_IN) / (EFFECT / 2);
}

/** How often the share's limits hold the truth, of those trials where it can be estimated. */
function shareCoverage(planted: boolean, trials: number): ShareRow {
  const truth = trueShare(planted);
  let [held, estimated] = [0, 0];
  let [heldFirst, estimatedFirst] = [0, 0];
  for (let trialNumber = 0; trialNumber < trials; trialNumber += 1) {
    const stream = randomStream(SEED + 500 + (planted ? 1 : 0) + 1000 * trialNumber);
    const { trial, readings } = simulated(stream, planted ? 'standIn' : undefined);
    const { shareExplained } = auditOf(trial, readings);
    const interval = shareExplained.kind === 'estimated' ? shareExplained.estimate.interval : undefined;
    if (interval !== undefined) estimated += 1;
    if (interval !== undefined && interval.lower <= truth && truth <= interval.upper) held += 1;
    if (trialNumber < FIRST) [heldFirst, estimatedFirst] = [held, estimated];
  }
  return {
    planted,
    truth,
    estimated: { count: estimated, first: estimatedFirst },
    held: { count: held, first: heldFirst },
  };
}

const percent = ({ count }: Tally, of: number) => ((100 * count) / of).toFixed(1);

/** The committed table, from the committed counts. */
export function auditsTable({ source, trials, audits: counted, shares }: AuditsFile): string {
  const rows = counted.map(({ fault, alarms, found }) => {
    const [audit, planted] = names[fault];
    return `| ${audit} | ${percent(alarms, trials)} | ${percent(found, trials)} | ${planted} |`;
  });
  const shareRows = shares.map(
    ({ truth, held, estimated }) =>
      `| ${truth.toFixed(2)} | ${percent(held, estimated.count)} | ${percent(estimated, trials)} |`,
  );
  const standardError = 100 * Math.sqrt((0.05 * 0.95) / trials);
  return `# Do the audits warn of nothing, and find what is there?

Made by ${source}; not edited by hand. ${trials.toLocaleString('en-GB')} simulated trials a cell, seed ${SEED}:
ten treated and ten untreated walls (five with a sham), two stations each, four days before and two after, every station read blind and
knowing after; the treatment takes 2 % by mass off the low stations. Standard deviations: walls 1.5, their changes 0.7, readings 0.8.

"False alarms" is the share of warnings at 5 % where nothing is wrong, "found" that where the fault is planted. Student's t on normal
values warns in exactly 5 % of all trials and Welch's in about as many, so that a simulation may show more than 5.0: its standard
error is ${standardError.toFixed(2)} points at 5 %. A rate above ${(5 + 3 * standardError).toFixed(2)} (three of them) would be taken as more than nominal.

| audit | false alarms, % | found, % | planted fault |
| --- | --- | --- | --- |
${rows.join('\n')}

Guesses come in whole numbers, so that their test stays below its 5 %. A false alarm of one of many audits is likelier than that of one.

## Coverage of the limits of the share explained

The same trials, a stand-in read half a year before the moisture, with no share and with the one planted above. The truth is the slope inside
arms times the effect on the stand-in over the effect on moisture, from the standard deviations. Fieller's limits at 95 %; where the effect on
moisture cannot be distinguished from none there are no limits, and the report gives no share:

| true share | limits hold it, % | estimated in, % of trials |
| --- | --- | --- |
${shareRows.join('\n')}
`;
}
