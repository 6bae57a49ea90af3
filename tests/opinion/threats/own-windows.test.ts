import { describe, expect, it } from 'vitest';
import { lossesByPlace, spreadTooSmall } from '../../../src/analysis/index.js';
import { moistureReadings } from '../../../src/moisture/index.js';
import { verdictOfTrial } from '../../../src/opinion/index.js';
import type { Core, DiaryEvent, Reading, Trial } from '../../../src/trial/index.js';
import { logged, recordOf, sensors } from '../../helpers/logged-trial.js';
import { autumn, staggered } from '../../helpers/staggered-trial.js';

// Walls W0 to W3 are read in spring and W4 to W7, which have windows of their own, in autumn.
const trial = staggered(true);
const isLate = (wall: string) => Number(wall.slice(1)) >= 4;
const isTreated = (wall: string) => Number(wall.slice(1)) % 2 === 0;
const isAutumn = (date: string) => date.slice(5, 7) >= '09';
const isOwn = ({ wall, date }: { readonly wall: string; readonly date: string }) => isLate(wall) === isAutumn(date);

const threatOf = (of: Trial, code: string) => verdictOfTrial(of, 1).threats.find((threat) => threat.code === code);
const outcomeOf = (of: Trial, code: string) => {
  const { finding, seriousness } = threatOf(of, code) ?? {};
  return seriousness ?? finding;
};
const reading = (change: (one: Reading) => Reading): Trial => ({ ...trial, readings: trial.readings.map(change) });

/** The same walls, cored: each day of each wall in a batch of that name. */
function cored(ovenOf: (core: Pick<Core, 'wall' | 'date'>) => number | undefined): Trial {
  const ovens = [...new Set(trial.readings.map(ovenOf))].flatMap((oven_c) => oven_c ?? []);
  const origin = { file: 'cores.csv', row: 2 };
  const cores = trial.readings.map(({ wall, date, station, value, reader = '', knewArm = 'no' }): Core => {
    const oven = ovenOf({ wall, date });
    const wet_g = 100 + (value.kind === 'measured' ? value.value : 0);
    return {
      ...{ date, wall, station, container_g: 0, wet_g, dry_g: 100, reader, knewArm, origin },
      ...(oven === undefined ? {} : { batch: `B${oven}` }),
    };
  });
  const batches = ovens.map((oven_c) => ({ batch: `B${oven_c}`, oven_c, stopRule: 'constant', origin }));
  return { ...trial, readings: [], cores, batches };
}

describe('walls with windows of their own are searched in them', () => {
  it('for readers of one arm: only the autumn readers of the autumn walls count', () => {
    const byArm = (of: (one: Reading) => boolean) =>
      reading((one) => ({ ...one, reader: of(one) ? (isTreated(one.wall) ? 'R1' : 'R2') : 'R3' }));
    expect(outcomeOf(byArm(isOwn), 'readers-differ-by-arm')).toBe('serious');
    expect(
      outcomeOf(
        byArm((one) => isOwn(one) && one.wall !== 'W4' && one.wall !== 'W5'),
        'readers-differ-by-arm',
      ),
    ).toBe('not-found');
  });

  it('for readers who changed: those of late walls before and after their own treatment', () => {
    const changed = reading((one) => ({
      ...one,
      reader: one.date >= (isLate(one.wall) ? '2025-09' : '2025') ? 'B' : 'A',
    }));
    expect(outcomeOf(changed, 'readers-changed')).toBe('minor');
    expect(outcomeOf(trial, 'readers-changed')).toBe('not-found');
    // After the plan's window began and before the late walls' own.
    const between = reading((one) => ({
      ...one,
      reader: isLate(one.wall) && one.date < '2025-09' && one.date >= '2025' ? 'B' : 'A',
    }));
    expect(outcomeOf(between, 'readers-changed')).toBe('not-found');
  });

  it('for what readers knew: every after reading of every wall is counted', () => {
    expect(threatOf(trial, 'readers-knew')?.text).toContain(' 32 after readings');
  });

  it('for ovens: late cores dried apart in their own after window, and not those of another time', () => {
    const inOwn = cored(({ wall, date }) => (wall === 'W4' && date >= '2025-09' ? 60 : 105));
    expect(outcomeOf(inOwn, 'dried-unlike')).toBe('serious');
    expect(
      outcomeOf(
        cored(({ wall, date }) => (wall === 'W4' && date < '2024-06' ? 60 : 105)),
        'dried-unlike',
      ),
    ).toBe('not-found');
  });

  it('for batches that are not stated: only those inside a wall’s own windows are asked for', () => {
    const asked = (of: Trial) => outcomeOf(of, 'oven-not-stated');
    expect(asked(cored((core) => (isOwn(core) ? 105 : undefined)))).toBe('not-found');
    expect(asked(cored((core) => (isOwn(core) && !isLate(core.wall) ? 105 : undefined)))).toBe('serious');
  });

  it('for stations lost: a late wall that was not read in its own after window', () => {
    const of = (lost: (one: Reading) => boolean) => {
      const kept = { ...trial, readings: trial.readings.filter((one) => !lost(one)) };
      const { design } = verdictOfTrial(trial, 1);
      return lossesByPlace(kept, moistureReadings(kept), design);
    };
    const late = of(({ wall, date }) => wall === 'W4' && date >= '2025-09');
    expect(late.all.lost.treated).toMatchObject({ stations: 4, lost: 1 });
    expect(late.visits.treated).toEqual({ expected: 32, missed: 4 });
    const elsewhere = of(({ wall, date }) => wall === 'W4' && date >= '2025-01' && date < '2025-06');
    expect(elsewhere.all.lost.treated).toMatchObject({ stations: 4, lost: 0 });
    expect(elsewhere.visits.treated).toEqual({ expected: 32, missed: 0 });
  });

  it('for spreads too small: readings outside a wall’s own windows change nothing', () => {
    const all = moistureReadings(trial);
    const own = all.filter(({ wall, day }) => isOwn({ wall, date: day }));
    expect(spreadTooSmall(trial, own).arms).not.toEqual([]);
    expect(spreadTooSmall(trial, all)).toEqual(spreadTooSmall(trial, own));
  });

  it('for events: between the start and the end of the windows of the wall struck', () => {
    const leak = (date: string, wall: string): Trial => {
      const event: DiaryEvent = { date, wall, kind: 'leak', note: '', origin: { file: 'diary.csv', row: 2 } };
      return { ...trial, events: [event] };
    };
    expect(outcomeOf(leak('2025-10-01', 'W4'), 'event-in-one-arm')).toBe('serious');
    expect(outcomeOf(leak('2025-10-01', 'W0'), 'event-in-one-arm')).toBe('not-found');
    expect(outcomeOf(leak('2024-04-01', 'W0'), 'event-in-one-arm')).toBe('serious');
    expect(outcomeOf(leak('2024-04-01', 'W4'), 'event-in-one-arm')).toBe('not-found');
  });

  it('for months: the walls whose own windows differ most', () => {
    const shifted = { before: autumn.before, after: { from: '2025-03-01', to: '2025-05-31' } };
    const walls = trial.walls.map((wall) => (isLate(wall.wall) ? { ...wall, windows: shifted } : wall));
    expect(outcomeOf({ ...trial, walls }, 'windows-in-different-months')).toBe('minor');
    expect(outcomeOf(trial, 'windows-in-different-months')).toBe('not-found');
  });

  it('for windows that are absent: those of every wall do where the plan states none', () => {
    const { windows, ...protocol } = trial.protocol;
    const walls = trial.walls.map((wall) => (windows === undefined ? wall : { windows, ...wall }));
    expect(outcomeOf({ ...trial, protocol, walls }, 'windows-absent')).toBe('not-found');
    expect(outcomeOf({ ...trial, protocol }, 'windows-absent')).toBe('fatal');
  });
});

describe('sensors of a wall with windows of its own', () => {
  it('are expected on the days of those windows', () => {
    // Sensors of one wall fail for good after ten days; a wall whose own windows end by then has lost nothing.
    const failing = logged(sensors.map((sensor, at) => recordOf(sensor, (day) => at === 0 && day >= 10)));
    const all = threatOf(failing, 'sensor-days-missing')?.measure?.value ?? 0;
    const [first] = failing.stations;
    const days = failing.sensorLog?.sensors[0]?.days ?? [];
    const [from, to] = [days[0]?.day ?? '', days[4]?.day ?? ''];
    const middle = days[5]?.day ?? '';
    const windows = { before: { from, to }, after: { from: middle, to: days[9]?.day ?? '' } };
    const walls = failing.walls.map((wall) => (wall.wall === first?.wall ? { ...wall, windows } : wall));
    expect(all).toBeGreaterThan(0.1);
    expect(threatOf({ ...failing, walls }, 'sensor-days-missing')?.measure?.value).toBe(0);
  });
});
