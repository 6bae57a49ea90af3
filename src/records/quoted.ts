const longest = 60;

/** A text from the folder as problems show it: in quotes, on one line, cut where it is long. */
export function quoted(text: string): string {
  return JSON.stringify(cut(text));
}

/** `a, b or c`, each cut where it is long. */
export function alternatives(names: readonly string[]): string {
  const shown = names.map(cut);
  const last = shown[shown.length - 1] ?? '';
  return shown.length < 2 ? last : `${shown.slice(0, -1).join(', ')} or ${last}`;
}

function cut(text: string): string {
  return text.length > longest ? `${text.slice(0, longest)}…` : text;
}
