import type { PlanLock, Protocol, Trial } from '../../../../src/index.js';
import { rowsOf } from './row.js';
import { sound } from './trials.js';

const seal: PlanLock = {
  lockedOn: '2024-02-01',
  version: '1.0.0',
  protocol: sound.protocol,
  walls: sound.walls.map(({ wall, arm, site }) => ({ wall, arm, ...(site === undefined ? {} : { site }) })),
  sha256: 'a'.repeat(64),
};
const locked = (changes: Partial<PlanLock> = {}): Trial => ({ ...sound, lock: { ...seal, ...changes } });
/** Sealed with another plan than that of the folder. */
const sealedWith = (changes: Partial<Protocol>) => locked({ protocol: { ...sound.protocol, ...changes } });
const { windows } = sound.protocol;
if (windows === undefined) throw new Error('the sound trial has windows');
const [first, ...others] = seal.walls;
if (first === undefined) throw new Error('the sound trial has walls');

const departed = (part: string, ...faults: readonly (readonly [string, Trial, number?])[]) =>
  rowsOf(
    `${part}-departed`,
    ['not found', 'as sealed', locked(), { value: 0 }],
    ['no entry', 'nothing sealed', sound],
    ...faults.map(([says, of, value = 1]) => ['minor', says, of, { value }] as const),
  );

export const lockRows = [
  ...rowsOf(
    'plan-not-locked',
    ['minor', 'no seal', sound, { direction: 'towards the claim' }],
    ['not found', 'a seal', locked()],
  ),
  ...rowsOf(
    'locked-late',
    ['not found', 'on the day of the first reading', locked({ lockedOn: '2024-04-10' })],
    ['minor', 'the day after', locked({ lockedOn: '2024-04-11' }), { direction: 'towards the claim' }],
    ['no entry', 'nothing sealed', sound],
  ),
  ...departed(
    'margin',
    ['a margin of 3 was sealed', sealedWith({ margin: 3 })],
    [
      'the margin and a pass mark',
      sealedWith({ margin: 3, passMark: { kind: 'reduction', reduction_pct: 50, source: 'x', asMargin: false } }),
      2,
    ],
  ),
  ...departed(
    'windows',
    [
      'the after window was to begin a day earlier',
      sealedWith({ windows: { ...windows, after: { ...windows.after, from: '2025-02-28' } } }),
    ],
    ['windows of its own for a wall', locked({ walls: [{ ...first, windows }, ...others] })],
  ),
  ...departed('outcome', [
    'the meter was to decide',
    sealedWith({ outcome: { ...sound.protocol.outcome, instrument: 'mw' } }),
  ]),
  ...departed(
    'arms',
    ['a wall was to stand in the other arm', locked({ walls: [{ ...first, arm: 'sham' }, ...others] })],
    ['walls were to be chosen', sealedWith({ allocation: { method: 'chosen', by: 'the owner' } })],
  ),
  ...departed(
    'walls',
    ['a wall came in afterwards', locked({ walls: others })],
    ['a wall is no longer there', locked({ walls: [...seal.walls, { wall: 'gone', arm: 'sham' }] })],
  ),
  ...departed('analysis', ['90 % intervals were planned', sealedWith({ confidence: 0.9 })]),
  ...departed('instruments', [
    'one instrument was planned',
    sealedWith({ instruments: sound.protocol.instruments.slice(0, 1) }),
  ]),
  ...departed('conduct', [
    'readers were to know',
    sealedWith({ blinding: { ...sound.protocol.blinding, readers: false } }),
  ]),
];
