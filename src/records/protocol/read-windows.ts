import type { Window, Windows } from '../../trial/index.js';
import { dayOf, fieldsOf, type JsonFields, refuse } from './json-fields.js';

/** The before and after windows: each forwards, the first over before the second begins. */
export function readWindows(root: JsonFields): Windows | undefined {
  const place = root.get('windows');
  const fields = place && fieldsOf(place, ['before', 'after']);
  if (fields === undefined) return undefined;
  const before = readWindow(fields, 'before');
  const after = readWindow(fields, 'after');
  if (before === undefined || after === undefined) return undefined;
  if (before.to < after.from) return { before, after };
  const backwards = before.from > after.to;
  return refuse(fields.place, 'a before window that ends on a day before the after window begins', {
    found: `windows that ${backwards ? 'run backwards' : 'overlap'}: before to ${before.to}, after from ${after.from}`,
  });
}

function readWindow(windows: JsonFields, name: 'before' | 'after'): Window | undefined {
  const expected = 'an object with the keys from and to';
  const place = windows.need(name, expected);
  const fields = place && fieldsOf(place, ['from', 'to']);
  const from = dayOf(fields?.need('from', 'the first day of the window'));
  const to = dayOf(fields?.need('to', 'the last day of the window'));
  if (fields === undefined || from === undefined || to === undefined) return undefined;
  if (from <= to) return { from, to };
  return refuse(fields.place, 'a window that begins no later than it ends', {
    found: `a window that runs backwards, from ${from} to ${to}`,
  });
}
