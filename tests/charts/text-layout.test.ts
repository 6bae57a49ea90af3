import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarTicks } from '../../src/charts/calendar-ticks.js';
import { estimatedWidth, shortenMiddle, wrapText } from '../../src/charts/text-layout.js';
import { msInDay } from '../../src/plain/days.js';
import { displayText } from '../../src/words/display-text.js';
import { anyCharacter } from '../helpers/any-character.js';

const anyText = fc.string({ unit: anyCharacter, maxLength: 60 });

describe('displayText(text)', () => {
  it('writes out what hides or reorders text, and joins lines', () => {
    expect(displayText('north\r\n wall\u202e\u0007\ud800')).toBe('north wall‹U+202E›‹U+0007›‹U+D800›');
  });

  it('leaves letters of every script, joiners and emoji alone', () => {
    const text = 'Стена קיר الجدار 壁 e\u0301 👩‍🔧 می‌شود';
    expect(displayText(text)).toBe(text);
  });

  it('never lets a control, a format character or half a pair through', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code)) }),
        (text) => {
          expect(displayText(text).replace(/[\u200c\u200d]/g, '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}]/u);
        },
      ),
    );
  });
});

describe('wrapText and shortenMiddle', () => {
  it('wrapText loses no character but the spaces it breaks at, and keeps to the width', () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 60, max: 400 }), (text, width) => {
        const lines = wrapText(text, width, 11);
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        for (const line of lines) expect(estimatedWidth(line, 11)).toBeLessThanOrEqual(width);
      }),
    );
  });

  it('shortenMiddle keeps both ends and the width', () => {
    expect(shortenMiddle('garden wall number 12 north', 100, 11)).toBe('garden …2 north');
    fc.assert(
      fc.property(anyText, fc.integer({ min: 30, max: 400 }), (text, width) => {
        const short = shortenMiddle(text, width, 11);
        expect(estimatedWidth(short, 11)).toBeLessThanOrEqual(Math.max(width, estimatedWidth('abc', 11)));
        expect(short === text || short.includes('…')).toBe(true);
      }),
    );
  });
});

describe('calendarTicks(span, most)', () => {
  it('gives firsts of months', () => {
    const span = { from: Date.UTC(2024, 0, 20), to: Date.UTC(2025, 5, 10) };
    const days = calendarTicks(span, 6).map((time) => new Date(time).toISOString().slice(0, 10));
    expect(days).toEqual(['2024-04-01', '2024-07-01', '2024-10-01', '2025-01-01', '2025-04-01']);
  });

  it('stays inside the span and within the number asked for', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40_000 }),
        fc.integer({ min: 0, max: 20_000 }),
        fc.integer({ min: 2, max: 9 }),
        (days, start, most) => {
          const span = { from: start * msInDay, to: (start + days) * msInDay };
          const ticks = calendarTicks(span, most);
          expect(ticks.length).toBeLessThanOrEqual(most);
          for (const tick of ticks) expect(tick >= span.from && tick <= span.to).toBe(true);
        },
      ),
    );
  });
});
