/** The same record without the keys that may be undefined: they are there with a value, or not at all. */
export type Present<Fields> = {
  [Key in keyof Fields as undefined extends Fields[Key] ? never : Key]: Fields[Key];
} & {
  [Key in keyof Fields as undefined extends Fields[Key] ? Key : never]?: Exclude<Fields[Key], undefined>;
};

/**
 * The fields that have a value, in the order given: what is not known is absent from a record, and never a key of undefined.
 *
 * @example present({ depth_mm: 80, height_mm: undefined }) // { depth_mm: 80 }
 */
export function present<Fields extends object>(fields: Fields): Present<Fields> {
  const kept: Record<string, unknown> = {};
  for (const key in fields) if (fields[key] !== undefined) kept[key] = fields[key];
  return kept as Present<Fields>;
}
