const longest = 60;

/** A text from the folder as problems show it: in quotes, on one line, cut where it is long. */
export function quoted(text: string): string {
  return JSON.stringify(text.length > longest ? `${text.slice(0, longest)}…` : text);
}

/** `a, b or c`. */
export function alternatives(names: readonly string[]): string {
  const last = names[names.length - 1] ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} or ${last}`;
}
