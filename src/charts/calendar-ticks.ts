import { monthNumber } from '../plain/calendar.js';
import { dayOfNumber, msInDay } from '../plain/days.js';

const monthSteps = [1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200];
const daySteps = [1, 2, 7, 14];

/** Firsts of months (or days, over a few weeks) inside a span of universal time, at most `most` of them and at least one. */
export function calendarTicks(span: { readonly from: number; readonly to: number }, most: number): readonly number[] {
  const count = Math.max(2, most);
  const days = daySteps.find((step) => (span.to - span.from) / (step * msInDay) <= count - 1);
  if (days !== undefined && span.to - span.from < 100 * msInDay) return everyDays(span, days);
  const candidates = monthSteps.map((step) => firstsOfMonths(span, step));
  return candidates.find((ticks) => ticks.length <= count) ?? candidates.at(-1) ?? [];
}

function everyDays(span: { readonly from: number; readonly to: number }, step: number): number[] {
  const first = Math.ceil(span.from / (step * msInDay)) * step * msInDay;
  const ticks: number[] = [];
  for (let time = first; time <= span.to; time += step * msInDay) ticks.push(time);
  return ticks;
}

function firstsOfMonths(span: { readonly from: number; readonly to: number }, step: number): number[] {
  const month = monthNumber(dayOfNumber(span.from / msInDay));
  const ticks: number[] = [];
  for (let each = Math.ceil(month / step) * step; ; each += step) {
    const time = Date.UTC(Math.floor(each / 12), each % 12, 1);
    if (time > span.to) return ticks;
    if (time >= span.from) ticks.push(time);
  }
}
