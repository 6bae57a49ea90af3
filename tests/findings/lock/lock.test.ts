import { describe, expect, it } from 'vitest';
import { departuresFromLock } from '../../../src/findings/lock/departures-from-lock.js';
import { trialAsLocked } from '../../../src/findings/lock/trial-as-locked.js';
import {
  formOpinion,
  type PlanLock,
  type Protocol,
  renderOpinion,
  type Trial,
  verdictOfTrial,
} from '../../../src/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const trial = madeTrial(wallsWithChanges([-4, -4.3, -3.6, -4.1], [0.2, -0.3, 0.1, 0]));
const sealed = (changes: Partial<Protocol> = {}, more: Partial<PlanLock> = {}): Trial => {
  const walls = trial.walls.map(({ wall, arm, site = '' }) => ({ wall, arm, site }));
  const protocol = { ...soundProtocol, ...changes };
  return { ...trial, lock: { lockedOn: '2024-02-01', version: '1', protocol, walls, sha256: '', ...more } };
};
const walls = sealed().lock?.walls ?? [];

describe('departuresFromLock', () => {
  it('finds none where nothing was sealed, and none where all is as sealed', () => {
    expect(departuresFromLock(trial)).toEqual([]);
    expect(departuresFromLock(sealed())).toEqual([]);
  });

  it('does not hold words, interests and the stated day against a plan', () => {
    const words = { title: 'Another', plannedOn: '2020-01-01', disclosures: { funding: 'x', interests: 'y' } };
    expect(departuresFromLock(sealed({ ...words, marginSource: 'z' }))).toEqual([]);
  });

  it('knows a key that was added from one that was taken away', () => {
    const { margin: _, ...withoutMargin } = soundProtocol;
    expect(departuresFromLock(sealed({}, { protocol: withoutMargin }))).toEqual([
      { part: 'margin', key: 'margin', now: 2 },
    ]);
    expect(departuresFromLock({ ...sealed(), protocol: withoutMargin })).toEqual([
      { part: 'margin', key: 'margin', locked: 2 },
    ]);
  });

  it('takes a margin that a pass mark came to for no departure', () => {
    const { margin: _, ...plan } = soundProtocol;
    const passMark = { kind: 'reduction', reduction_pct: 25, source: 'an agreement', asMargin: true } as const;
    const protocol = { ...plan, passMark };
    expect(departuresFromLock({ ...sealed({}, { protocol }), protocol: { ...protocol, margin: 2.1 } })).toEqual([]);
  });

  it('does not mind the order of keys, and minds that of lists', () => {
    const { arms } = soundProtocol;
    const turned = arms.map(({ arm, role }) => ({ role, arm }));
    expect(departuresFromLock(sealed({ arms: turned }))).toEqual([]);
    expect(departuresFromLock(sealed({ arms: [...arms].reverse() })).map(({ key }) => key)).toEqual(['arms']);
  });

  it('names each wall with what is otherwise', () => {
    const [first, second, ...others] = walls;
    if (first === undefined || second === undefined) throw new Error('no walls');
    const lock = [
      { ...first, arm: 'sham' },
      { ...second, site: 'the cellar' },
      ...others,
      { wall: 'gone', arm: 'sham' },
    ];
    expect(departuresFromLock(sealed({}, { walls: lock }))).toEqual([
      { part: 'arms', key: 'arm', wall: 'T1', locked: 'sham', now: 'treated' },
      { part: 'walls', key: 'site', wall: 'T2', locked: 'the cellar', now: 'the garden' },
      { part: 'walls', key: 'wall', wall: 'gone', locked: 'gone' },
    ]);
  });
});

describe('trialAsLocked', () => {
  it('is the trial itself where nothing departs', () => {
    const own = sealed();
    expect(trialAsLocked(own)).toEqual({ kind: 'trial', trial: own });
  });

  it('leaves out a wall that came in afterwards, with its readings', () => {
    const locked = trialAsLocked(sealed({}, { walls: walls.slice(1) }));
    if (locked?.kind !== 'trial') throw new Error('no trial');
    expect(locked.trial.walls).toHaveLength(7);
    expect(locked.trial.readings.some(({ wall }) => wall === 'T1')).toBe(false);
  });

  it('does not hold readings in one unit against a plan in another', () => {
    const outcome = { ...soundProtocol.outcome, instrument: 'mw', unit: 'digits' };
    const own = { ...sealed({ outcome }), protocol: { ...soundProtocol, outcome: { ...outcome, unit: 'index' } } };
    expect(trialAsLocked(own)).toMatchObject({ kind: 'not-possible' });
  });
});

describe('an opinion of a sealed trial', () => {
  it('gives the verdict as locked beside its own, by hand the same as with that plan in the folder', async () => {
    const own = sealed({ margin: 3.9 });
    const { lock, verdict } = formOpinion(own, { seed: 1 });
    const plan = verdictOfTrial({ ...own, protocol: { ...soundProtocol, margin: 3.9 } }, 1).verdict;
    expect(verdict.code).toBe('worthwhile');
    expect(plan.code).toBe('some-effect');
    expect(lock?.asLocked).toMatchObject({ kind: 'judged', code: plan.code, margin: 3.9 });
    const { html, markdown, json } = await renderOpinion(formOpinion(own, { seed: 1 }));
    expect(JSON.parse(json).lock).toMatchObject({
      lockedOn: '2024-02-01',
      departures: [{ part: 'margin', key: 'margin', wall: null, locked: 3.9, now: 2 }],
      asLocked: { same: false, code: 'some-effect', reason: null },
    });
    for (const text of [html, markdown]) expect(text).toContain('some-effect');
  });

  const { windows, outcome, instruments } = soundProtocol;
  const [first, ...others] = walls;
  if (windows === undefined || first === undefined) throw new Error('the sound trial has windows and walls');
  it.each([
    ['margin', sealed({ margin: 3.9 }), 'some-effect'],
    // No reading lies in the sealed window.
    ['windows', sealed({ windows: { ...windows, after: { from: '2026-03-01', to: '2026-05-31' } } }), 'not-answerable'],
    ['outcome', sealed({ outcome: { ...outcome, better: 'higher' } }), 'harmful'],
    ['arms', sealed({}, { walls: [{ ...first, arm: 'sham' }, ...others] }), 'some-effect'],
    ['walls', sealed({}, { walls: walls.filter(({ wall }) => wall === 'T1' || wall === 'U1') }), 'not-answerable'],
    // ±5.96 standard errors of 0.18.
    ['analysis', sealed({ confidence: 0.999 }), 'worthwhile'],
    ['instruments', sealed({ instruments: instruments.map((one) => ({ ...one, resolution_g: 0.5 })) }), 'worthwhile'],
    ['conduct', sealed({ blinding: { readers: false, occupants: false, analyst: false } }), 'worthwhile'],
  ] as const)(
    'names other %s than were sealed in a threat of its own, with the verdict as locked beside it',
    (part, own, code) => {
      const { threats, lock, verdict } = formOpinion(own, { seed: 1 });
      const departed = threats.flatMap((threat) =>
        threat.finding === 'found' && threat.code.endsWith('-departed') ? [threat.code] : [],
      );
      expect(departed).toEqual([`${part}-departed`]);
      expect(verdict.code).toBe('worthwhile');
      expect(lock?.asLocked).toMatchObject({ kind: 'judged', code });
    },
  );

  it('says that it is the same where nothing departs, and nothing where nothing was sealed', async () => {
    expect(formOpinion(sealed(), { seed: 1 }).lock?.asLocked).toEqual({ kind: 'the-same' });
    const { json } = await renderOpinion(formOpinion(trial, { seed: 1 }));
    expect(Object.keys(JSON.parse(json))).not.toContain('lock');
  });

  it('gives the reason where the plan as locked has no interval', () => {
    const few = walls.filter(({ wall }) => wall === 'T1' || wall === 'U1');
    expect(formOpinion(sealed({}, { walls: few }), { seed: 1 }).lock?.asLocked).toMatchObject({
      kind: 'judged',
      code: 'not-answerable',
      primary: { kind: 'not-estimated' },
    });
  });

  it('is as firm with a departure as without a seal, so that deleting the file never helps', () => {
    const evidence = (of: Trial) => verdictOfTrial(of, 1).verdict.evidence;
    const several = sealed(
      { margin: 3, confidence: 0.9, claim: 'x' },
      { lockedOn: '2025-01-01', walls: walls.slice(1) },
    );
    expect(evidence(several)).toBe(evidence(trial));
    expect(evidence(sealed())).toBe('firm');
  });
});
