import { describe, expect, it } from 'vitest';
import { assumedWall, moistureTransfer_kg_m2_s_pa, waitForMargin, winterPressure_pa } from '../../src/drying/index.js';
import { readingPlaces } from '../../src/planning/calendar/reading-places.js';
import { trialCalendar } from '../../src/planning/calendar/trial-calendar.js';

const question = {
  ...{ firstDay: '2026-03-02', visitsBefore: 4, visitsAfter: 4, margin: 2, unit: '% by mass' },
  better: 'lower' as const,
};
const windows = {
  before: { from: '2026-03-02', to: '2026-05-31' },
  after: { from: '2027-03-02', to: '2027-05-31' },
};

describe('trialCalendar', () => {
  it('reads on the same days of the year before and after', () => {
    const { visits } = trialCalendar(question);
    const days = (window: string) => visits.filter((visit) => visit.window === window).map(({ day }) => day.slice(5));
    expect(days('after')).toEqual(days('before'));
    expect(days('before')).toHaveLength(4);
  });

  it('waits as long as the opinion asks for, and not a year less', () => {
    const air = { pressure_pa: winterPressure_pa, transfer_kg_m2_s_pa: moistureTransfer_kg_m2_s_pa.indoors };
    const { wait_d } = waitForMargin({ margin_pp: 20, ...assumedWall, ...air });
    const { after, treatment } = trialCalendar({ ...question, margin: 20 });
    const days = (Date.parse(after.from) - Date.parse(treatment)) / 86_400_000;
    expect(days).toBeGreaterThanOrEqual(wait_d);
    expect(days - 366).toBeLessThan(wait_d);
    expect(wait_d).toBeGreaterThan(366);
  });

  it('is not shortened by a wall that is said to be thicker than assumed, nor by leaving its thickness out', () => {
    const waitOf = (thickness_mm?: number) => {
      const { wait } = trialCalendar({ ...question, ...(thickness_mm === undefined ? {} : { thickness_mm }) });
      return wait.kind === 'computed' ? wait.wait.wait_d : Number.NaN;
    };
    expect(waitOf(900)).toBe(waitOf());
    expect(waitOf(300)).toBeCloseTo(waitOf() / 2, 9);
  });

  it.each([
    ['other months', { windows: { ...windows, after: { from: '2027-06-02', to: '2027-08-31' } } }, ['other-months']],
    [
      'a day too early',
      { windows: { ...windows, after: { from: '2026-07-01', to: '2026-08-31' } } },
      ['other-months', 'too-early'],
    ],
    ['three visits before', { windows, visitsBefore: 3 }, ['few-before']],
    ['nothing', { windows }, []],
  ] as const)('names %s', (_, change, kinds) =>
    expect(trialCalendar({ ...question, ...change }).departures.map(({ kind }) => kind)).toEqual(kinds),
  );

  it('computes no wait for an index or where higher is better', () => {
    expect(trialCalendar({ ...question, unit: 'digits' }).wait.kind).toBe('none');
    expect(trialCalendar({ ...question, better: 'higher' }).wait.kind).toBe('none');
  });

  it('knows a leap day', () => {
    expect(trialCalendar({ ...question, firstDay: '2028-02-29' }).after.from).toBe('2029-02-28');
  });

  it('refuses a calendar without a day, and more visits than days', () => {
    const { firstDay: _, ...without } = question;
    expect(() => trialCalendar(without)).toThrowError(expect.objectContaining({ fault: 'not-possible' }));
    expect(() => trialCalendar({ ...question, visitsBefore: 400 })).toThrowError(
      expect.objectContaining({ fault: 'out-of-range' }),
    );
  });
});

describe('readingPlaces', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 9])('gives %i heights, each once and rising', (stations) => {
    const heights = readingPlaces({ stations, dampTop_mm: 900 }).map(({ height_mm }) => height_mm);
    expect(heights).toHaveLength(stations);
    expect(heights).toEqual([...new Set(heights)].toSorted((one, other) => one - other));
  });

  it('has one above the damp from three heights on', () => {
    const has = (stations: number) => readingPlaces({ stations }).some(({ role }) => role === 'above-the-damp');
    expect([1, 2, 3, 4, 5].map(has)).toEqual([false, false, true, true, true]);
  });

  it('takes the heights that the plan states', () => {
    expect(readingPlaces({ stations: 2, heights_mm: [900, 300] }).map(({ height_mm }) => height_mm)).toEqual([
      300, 900,
    ]);
  });
});
