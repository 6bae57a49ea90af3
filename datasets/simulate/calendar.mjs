const dayInMilliseconds = 86_400_000;

/** Days since 1970-01-01 of an ISO day. */
function dayNumber(day) {
  return Date.parse(`${day}T00:00:00Z`) / dayInMilliseconds;
}

function isoDay(number) {
  return new Date(number * dayInMilliseconds).toISOString().slice(0, 10);
}

/** Every `step` days from the first to the last day, both included. */
export function daysBetween(first, last, step) {
  const days = [];
  for (let number = dayNumber(first); number <= dayNumber(last); number += step) days.push(isoDay(number));
  return days;
}

/** The same day of each month, from the first month to the last, both as `2024-03`. */
export function monthlyDays(firstMonth, lastMonth, dayOfMonth) {
  const days = [];
  let [year, month] = firstMonth.split('-').map(Number);
  for (;;) {
    const name = `${year}-${String(month).padStart(2, '0')}`;
    days.push(`${name}-${String(dayOfMonth).padStart(2, '0')}`);
    if (name === lastMonth) return days;
    [year, month] = month === 12 ? [year + 1, 1] : [year, month + 1];
  }
}

/** Reads a table of twelve monthly values, taken to hold in mid-month, with straight lines between. */
export function monthlyValue(values, day) {
  const position = Number(day.slice(5, 7)) - 1 + (Number(day.slice(8, 10)) - 15) / 30.5;
  const before = Math.floor(position);
  const share = position - before;
  const at = (index) => values[(index + 12) % 12];
  return at(before) * (1 - share) + at(before + 1) * share;
}

/** Whole days from one ISO day to another, negative where the other came first. */
export function daysFrom(first, last) {
  return dayNumber(last) - dayNumber(first);
}

/** 0 until the start, 1 from `days` days later on, a straight line between. */
export function ramp(start, days, day) {
  return Math.min(1, Math.max(0, (dayNumber(day) - dayNumber(start)) / days));
}
