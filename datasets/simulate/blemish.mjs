/** Replaces cells of the record that the keys single out; says so when there is none, or more than one. */
export function blemish(records, keys, change) {
  const index = only(records, keys);
  return records.map((record, at) => (at === index ? { ...record, ...change } : record));
}

/** Leaves out the record that the keys single out: the reading was never taken. */
export function lose(records, keys) {
  const index = only(records, keys);
  return records.filter((_, at) => at !== index);
}

function only(records, keys) {
  const matches = (record) => Object.entries(keys).every(([column, value]) => record[column] === value);
  const indices = records.flatMap((record, index) => (matches(record) ? [index] : []));
  if (indices.length !== 1) throw new Error(`${indices.length} records have ${JSON.stringify(keys)}, expected one`);
  return indices[0];
}
