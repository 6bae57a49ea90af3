import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { swept } from '../helpers/sweep.js';
import { faultsTable, percent, REQUIRED } from './fault-trials/faults-table.js';
import { type FaultsFile, judgeFault, SEED, soundJudge, soundRows } from './fault-trials/judge-trials.js';
import { faults } from './fault-trials.js';

const place = (name: string) => new URL(name, import.meta.url);
const isRun = existsSync(place('faults.json'));
const file: FaultsFile = isRun
  ? JSON.parse(readFileSync(place('faults.json'), 'utf8'))
  : { source: '', seed: 0, faults: [], sound: [] };
/** A rate of 5 % from fewer would be known to no better than a point. */
const FEWEST = 500;
/** So many of the trials kept one by one are made again here; the script makes all of them again. */
const AGAIN = 1;
const rowOf = (name: string) => file.faults.find((row) => row.name === name);

const shareOf = (name: string, what: 'found' | 'falseAlarms') => {
  const row = rowOf(name);
  return row === undefined ? Number.NaN : percent(row[what], row.trials);
};

/** Shared, so that each sound trial is judged once. */
const judges = Array.from({ length: AGAIN }, (_, number) => soundJudge(number));

describe.runIf(isRun)('the committed counts of planted faults', () => {
  it('has a row for every fault, from as many trials with it as without', () => {
    expect(file.faults.map(({ name }) => name)).toEqual(faults.map(({ name }) => name));
    expect(file.faults.filter(({ trials }) => trials < FEWEST).map(({ name }) => name)).toEqual([]);
    expect(file.seed).toBe(SEED);
  });

  it(`finds at least ${REQUIRED.foundWhereLarge} % of every fault that is large`, () => {
    const missed = faults.filter(
      ({ name, size }) => size !== 'slight' && !(shareOf(name, 'found') >= REQUIRED.foundWhereLarge),
    );
    expect(missed.map(({ name }) => name)).toEqual([]);
  });

  it(`raises no false alarm in more than ${REQUIRED.falseAlarms} % of sound trials`, () => {
    const loud = faults.filter(({ name }) => !(shareOf(name, 'falseAlarms') <= REQUIRED.falseAlarms));
    expect(loud.map(({ name }) => name)).toEqual([]);
  });

  it(`calls at least ${REQUIRED.soundFirm} % of sound trials firm, and none of them none`, () => {
    expect(file.sound.map(({ design, effect }) => ({ design, effect }))).toEqual(soundRows);
    for (const { design, effect, trials, evidence } of file.sound) {
      const isFirm = percent(evidence.firm, trials) >= REQUIRED.soundFirm;
      expect([design, effect, isFirm, evidence.none]).toEqual([design, effect, true, 0]);
    }
  });

  const again = swept(faults, (_, at) => at % 20 === 0);
  it.each(again.map((fault) => [fault.name, fault] as const))('begins as a run made now does, %s', (name, fault) => {
    const again = judges.map((judgeSound, number) => judgeFault(fault, number, judgeSound));
    expect(again).toEqual(rowOf(name)?.first.slice(0, AGAIN));
  });

  const rows = soundRows.map((base, at) => [base.design, base.effect, at] as const);
  it.each(swept(rows, ([, , at]) => at === 0))(
    'begins as a run made now does, sound trials in %s with effect %d',
    (design, effect, at) => {
      const again = judges.map((judgeSound) => judgeSound({ kind: 'walls', base: { design, effect } }));
      expect(again).toEqual(file.sound[at]?.first.slice(0, AGAIN));
    },
  );

  it('stands in the table as in the numbers', () => {
    expect(readFileSync(place('faults.md'), 'utf8')).toBe(faultsTable(file));
  });
});
