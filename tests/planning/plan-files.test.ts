import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readSheet } from 'read-excel-file/universal';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { planTrial } from '../../src/command/plan.js';
import { departuresFromLock } from '../../src/findings/lock/departures-from-lock.js';
import { checkPlan, checkTrial, lockFolder } from '../../src/records/index.js';
import { readLock } from '../../src/records/lock/read-lock.js';
import { findBrowser } from '../../src/report/paper/find-browser.js';
import type { Wall } from '../../src/trial/index.js';
import { isWholeSweep, swept } from '../helpers/sweep.js';

// Writes workbooks and reads one of the bundled trials: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const scratch = mkdtempSync(join(tmpdir(), 'fairwall-plan-'));
const said: string[] = [];

beforeAll(() => {
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => said.push(String(text)) > 0);
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => said.push(String(text)) > 0);
});
afterEach(() => said.splice(0));
afterAll(() => {
  vi.restoreAllMocks();
  rmSync(scratch, { recursive: true, force: true });
});

const planning = {
  ...{ design: 'pairs', walls: 12, stations: 3, visitsBefore: 4, visitsAfter: 4, correlation: 0.4 },
  spreads: { walls: 1.2, stations: 0.8, visits: 0.4, readings: 0.8 },
  costs: { wall: 300, core: 12, visit: 150, month: 0, currency: 'EUR' },
  firstDay: '2026-03-02',
};

const plan = {
  ...{ format: 'fairwall-trial/1', title: 'Invented <b>walls</b>', claim: 'Invented', margin: 2, confidence: 0.95 },
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  arms: [
    { arm: 'zirkon', role: 'treated' },
    { arm: 'quartz', role: 'sham' },
  ],
  instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }],
  allocation: { method: 'matched-pairs', seed: 424242, by: 'a program' },
  planning,
};

let count = 0;
function written(document: object): string {
  const path = join(scratch, `plan-${++count}.json`);
  writeFileSync(path, JSON.stringify(document));
  return path;
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
}

describe('fairwall plan', () => {
  const out = join(scratch, 'planned');

  it('writes nothing where the plan page is to be printed and no browser can', async () => {
    const folder = join(scratch, 'not-on-paper');
    vi.stubEnv('FAIRWALL_BROWSER', join(scratch, 'no-browser'));
    expect(await planTrial(written(plan), folder, { pdf: true })).toBe(2);
    expect(existsSync(folder)).toBe(false);
    vi.unstubAllEnvs();
  });

  it.runIf(isWholeSweep)('prints the plan page', { timeout: 60_000 }, async (context) => {
    const folder = join(scratch, 'on-paper');
    if (findBrowser(process.env) === undefined) context.skip('no browser that prints');
    expect(await planTrial(written(plan), folder, { pdf: true })).toBe(0);
    expect(readFileSync(join(folder, 'plan.pdf')).subarray(0, 5).toString('latin1')).toBe('%PDF-');
  });

  it('writes everything, and the same again from the same seed', async () => {
    const path = written(plan);
    expect(await planTrial(path, out)).toBe(0);
    const again = join(scratch, 'again');
    expect(await planTrial(path, again, { seed: '424242' })).toBe(0);
    const names = filesIn(out).map((file) => file.slice(out.length));
    expect(names).toEqual(
      expect.arrayContaining(['/plan.html', '/chances.csv', '/designs.csv', '/calendar.csv', '/trial/trial.xlsx']),
    );
    expect(names.filter((name) => name.includes('/visits/'))).toHaveLength(8);
    const differing = names.filter((name) => !readFileSync(join(again, name)).equals(readFileSync(join(out, name))));
    expect(differing).toEqual([]);
  });

  it('shows those who read neither an arm of a wall nor the seed', () => {
    const known = new Map(
      readFileSync(join(out, 'for-the-person-who-knows/allocation.csv'), 'utf8')
        .trim()
        .split('\n')
        .slice(1)
        .map((line) => line.split(',') as [string, string]),
    );
    expect([...known.values()].filter((arm) => arm === 'zirkon')).toHaveLength(6);
    for (const file of filesIn(join(out, 'for-the-readers'))) {
      if (file.endsWith('.xlsx')) continue;
      const text = readFileSync(file, 'utf8');
      expect(text).not.toContain('424242');
      // The form for guesses names both arms beside every wall, which tells nothing.
      if (file.endsWith('believed-arm.html'))
        expect(text.match(/zirkon/g)).toHaveLength(text.match(/quartz/g)?.length ?? 0);
      else expect(text).not.toMatch(/zirkon|quartz/);
    }
    expect(readFileSync(join(out, 'plan.html'), 'utf8')).not.toContain('424242');
  });

  it('gives whoever installs a page a wall with its arm', () => {
    const text = readFileSync(join(out, 'for-the-person-who-knows/installer-sealed.html'), 'utf8');
    expect(text.match(/class="sealed"/g)).toHaveLength(12);
    expect(text.match(/<b>zirkon<\/b>/g)).toHaveLength(6);
    expect(text.match(/<b>quartz<\/b>/g)).toHaveLength(6);
  });

  it('lets no word of the plan act, and puts the cautions on the page', () => {
    const text = readFileSync(join(out, 'plan.html'), 'utf8');
    expect(text).not.toContain('<b>walls</b>');
    expect(text).toContain('asbestos');
    expect(text).toContain('licensed electrician');
  });

  it('fills the plan into the workbook, without its seed and without arms of walls', async () => {
    const check = await checkPlan(join(out, 'trial'));
    if (check.kind === 'problems') throw new Error(JSON.stringify(check.problems));
    expect(check.plan).toMatchObject({
      margin: 2,
      planning: { design: 'pairs', walls: 12, spreads: planning.spreads },
    });
    expect(check.plan.allocation.seed).toBeUndefined();
    expect(check.plan.windows?.before.from).toBe('2026-03-02');
    // All that keeps it from being a trial are the arms and the readings.
    const trial = await checkTrial(join(out, 'trial'));
    expect(trial.kind).toBe('problems');
    if (trial.kind === 'problems')
      expect(trial.problems.every(({ file, column }) => column === 'arm' || !file.includes('plan'))).toBe(true);
  });

  it('writes nothing where something lies already', async () => {
    expect(await planTrial(written(plan), out)).toBe(2);
    expect(said.join('')).toMatch(/missing or empty/);
  });

  it('plans two walls, and says that they speak of themselves alone', async () => {
    const two = { ...planning, design: 'two-walls', walls: 2, visitsBefore: 15, visitsAfter: 15 };
    const folder = join(scratch, 'two');
    expect(await planTrial(written({ ...plan, planning: two }), folder)).toBe(0);
    expect(readFileSync(join(folder, 'plan.html'), 'utf8')).toContain('never generalises');
  });

  it('takes spreads from a bundled trial, and marks it as invented', async () => {
    const { spreads: _, ...rest } = planning;
    const folder = join(scratch, 'pilot');
    const document = { ...plan, planning: { ...rest, pilot: 'bundled:paired-garden-walls' } };
    expect(await planTrial(written(document), folder)).toBe(0);
    expect(readFileSync(join(folder, 'plan.html'), 'utf8')).toContain('an invented trial (no real walls)');
  });

  it('refuses a pilot with one wall an arm, and writes nothing', async () => {
    const { spreads: _, ...rest } = planning;
    const folder = join(scratch, 'small-pilot');
    const document = { ...plan, planning: { ...rest, pilot: 'bundled:two-walls' } };
    expect(await planTrial(written(document), folder)).toBe(2);
    expect(said.join('')).toMatch(/two walls with a change in an arm/);
    expect(readdirSync(scratch)).not.toContain('small-pilot');
  });
});

describe('the seal of a planned trial', () => {
  const listed = (groups: object) => ({
    walls: undefined,
    list: [1, 2, 3, 4].map((at) => ({ wall: `W${at}`, ...groups })),
  });
  const plans: readonly (readonly [name: string, change: object, method: string])[] = [
    ['in pairs', {}, 'matched-pairs'],
    ['complete', { design: 'complete' }, 'randomised'],
    ['by house', { design: 'houses', wallsPerHouse: 3 }, 'randomised'],
    ['of named walls with sites', { design: 'complete', ...listed({ site: 'the yard' }) }, 'randomised'],
  ];
  it.each(swept(plans, ([name]) => name === 'in pairs' || name === 'by house'))(
    '%s: is set before there is an arm in the folder to fill in, and nothing departs from it later',
    async (name, change, method) => {
      const folder = join(scratch, `sealed ${name}`);
      const passMark = { reduction_pct: 50, source: 'an agreement' };
      const document = {
        ...plan,
        passMark,
        allocation: { method, seed: 5, by: '' },
        planning: { ...planning, ...change },
      };
      expect(await planTrial(written(document), folder)).toBe(0);
      const toLock = join(folder, 'for-the-person-who-knows/to-lock');
      expect((await lockFolder(toLock, { lockedOn: '2026-01-01', version: '1' })).kind).toBe('locked');
      expect(readFileSync(join(toLock, 'lock.json'), 'utf8')).not.toMatch(/"seed/);
      // As at the end: the workbook with the arms, the seal, and a reading.
      const sheet = await readSheet(new Blob([readFileSync(join(folder, 'trial/trial.xlsx'))]), 'walls');
      const [headings = [], ...cells] = sheet.map((row) => row.map((cell) => String(cell ?? '')));
      const column = (row: readonly string[], heading: string) => row[headings.indexOf(heading)] ?? '';
      const armOf = new Map(
        readFileSync(join(toLock, 'walls.csv'), 'utf8')
          .trim()
          .split('\n')
          .slice(1)
          .map((line) => line.split(',').slice(0, 2) as [string, string]),
      );
      const check = await checkPlan(join(folder, 'trial'));
      if (check.kind === 'problems') throw new Error(JSON.stringify(check.problems));
      const lock = readLock(readFileSync(join(toLock, 'lock.json'), 'utf8'), []);
      if (lock === undefined) throw new Error('expected a seal');
      const walls = cells.map((row) => {
        const [wall, block, site] = ['wall', 'block', 'site'].map((heading) => column(row, heading));
        return {
          ...{ wall: wall ?? '', arm: armOf.get(wall ?? '') ?? '', origin: { file: 'walls.csv', row: 2 } },
          ...(block === '' ? {} : { block }),
          ...(site === '' ? {} : { site }),
        } as Wall;
      });
      expect(walls).toHaveLength(armOf.size);
      expect(departuresFromLock({ protocol: check.plan, walls, lock })).toEqual([]);
      const [first, ...others] = walls;
      if (first === undefined) throw new Error('expected walls');
      const moved = { ...first, arm: first.arm === 'zirkon' ? 'quartz' : 'zirkon' };
      expect(departuresFromLock({ protocol: check.plan, walls: [moved, ...others], lock })).toHaveLength(1);
    },
  );
});

describe('checkPlan', () => {
  const withPlanning = (change: object) => ({ ...plan, planning: { ...planning, ...change } });
  const list = (blocks: readonly string[]) => blocks.map((block, at) => ({ wall: `W${at}`, block }));

  it.each([
    ['a margin of zero', { ...plan, margin: 0 }, 'margin'],
    ['no margin', { ...plan, margin: undefined }, 'margin'],
    ['no planning', { ...plan, planning: undefined }, 'planning'],
    ['a negative spread', withPlanning({ spreads: { ...planning.spreads, walls: -1 } }), 'planning.spreads.walls'],
    ['spreads of nothing', withPlanning({ spreads: { walls: 0 } }), 'planning.spreads'],
    ['a correlation above 1', withPlanning({ correlation: 1.1 }), 'planning.correlation'],
    ['a correlation below -1', withPlanning({ correlation: -1.1 }), 'planning.correlation'],
    ['an autocorrelation of 1', withPlanning({ autocorrelation: 1 }), 'planning.autocorrelation'],
    ['fewer walls than arms', withPlanning({ design: 'complete', walls: 1 }), 'planning.walls'],
    ['half a pair', withPlanning({ walls: 7 }), 'planning.walls'],
    [
      'a block without two walls',
      withPlanning({ walls: undefined, list: list(['A', 'A', 'B', 'C']) }),
      'planning.list',
    ],
    [
      'a wall without a block',
      withPlanning({ walls: undefined, list: [{ wall: 'W1' }, { wall: 'W2' }] }),
      'planning.list',
    ],
    ['another number than the list', withPlanning({ walls: 6, list: list(['A', 'A']) }), 'planning.walls'],
    ['an effect within the margin', withPlanning({ effect: 2 }), 'planning.effect'],
    ['a drop-out of all', withPlanning({ dropOut: 1 }), 'planning.dropOut'],
    ['neither spreads nor a pilot', withPlanning({ spreads: undefined }), 'planning'],
    ['three walls of the design of two', withPlanning({ design: 'two-walls', walls: 3 }), 'planning.walls'],
    ['numbers for another number of arms', withPlanning({ perArm: [1, 1, 1] }), 'planning.perArm'],
    ['an unknown key', withPlanning({ wals: 3 }), 'planning.wals'],
    ['a negative cost', withPlanning({ costs: { wall: -1 } }), 'planning.costs.wall'],
    [
      'a constraint where nothing is drawn',
      { ...plan, allocation: { method: 'chosen', by: '', mostBeforeDifference: 1 } },
      'allocation.mostBeforeDifference',
    ],
  ])('names %s at its key', async (_, document, key) => {
    const check = await checkPlan(written(document));
    if (check.kind === 'plan') throw new Error('expected problems');
    // A key that is not there has no place.
    expect(check.problems.map(({ column, found }) => column ?? found.replace('no key ', ''))).toContain(key);
  });

  it('accepts numbers just inside their limits', async () => {
    for (const change of [
      { correlation: 1 },
      { correlation: -1 },
      { autocorrelation: 0.99 },
      { dropOut: 0 },
      { effect: 2.1 },
    ])
      expect((await checkPlan(written(withPlanning(change)))).kind).toBe('plan');
  });

  it('says what a path that is no plan is', async () => {
    const other = join(scratch, 'plan.txt');
    writeFileSync(other, 'x');
    for (const path of [other, join(scratch, 'nowhere.json'), scratch])
      expect((await checkPlan(path)).kind).toBe('problems');
  });
});
