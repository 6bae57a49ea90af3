import { mutationsOf } from '../mutation.mjs';

export const plainList = [
  ...mutationsOf('src/plain/days.ts', 'plain/days.test.ts', [
    ['day <= lengthOfMonth(year, month)', 'day <= 31'],
    ['month <= 12', 'month <= 13'],
    ['dayNumber(to) - dayNumber(from)', 'dayNumber(from) - dayNumber(to)'],
    ['daysBetween(from, to) + 1)', 'daysBetween(from, to))'],
    ['Math.round(daysBetween(from, to) / 2)', 'Math.floor(daysBetween(from, to) / 2)'],
  ]),
  ...mutationsOf('src/plain/calendar.ts', 'plain/calendar.test.ts', [
    ['year % 100 !== 0', 'year % 100 >= 0'],
    ['year % 400 === 0', 'year % 200 === 0'],
    ["leapDay === 'before' ? '02-28' : '03-01'", "leapDay === 'before' ? '03-01' : '02-28'"],
    ['* 12 + Number(', '* 11 + Number('],
  ]),
  ...mutationsOf('src/plain/group-by.ts', 'plain/group-by.test.ts', [
    ['if (key !== undefined) addTo(groups, key, item);', "addTo(groups, key ?? ('' as Key), item);"],
  ]),
  ...mutationsOf('src/plain/unless-refused.ts', 'plain/unless-refused.test.ts', [
    ['if (!isRefusal(error)) throw error;', 'if (isRefusal(error)) throw error;'],
  ]),
  ...mutationsOf('src/plain/in-order.ts', 'plain/in-order.test.ts', [
    ['items.length + at : at', 'items.length + at - 1 : at'],
  ]),
];
