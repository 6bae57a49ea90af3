/**
 * The start tags of one name, whatever their prefix, each as a function from an attribute's name, without prefix, to its value.
 * Enough for the lists of parts in a workbook; it reads a text once from end to end, whatever is in it.
 */
export function elements(xml: string, name: string): ((attribute: string) => string)[] {
  return [...xml.matchAll(new RegExp(`<(?:\\w+:)?${name}(?=[\\s/>])([^<>]*)>`, 'g'))].map(
    ([, attributes = '']) =>
      (attribute) =>
        attributeOf(attributes, attribute),
  );
}

/** The value of an attribute; empty where it is not there. */
export function attributeOf(attributes: string, name: string): string {
  const value = new RegExp(`(?:^|\\s)(?:\\w+:)?${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`).exec(attributes);
  return withoutEntities(value?.[1] ?? value?.[2] ?? '');
}

const named: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' };

export function withoutEntities(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&(?:#x([0-9a-fA-F]{1,6})|#([0-9]{1,7})|([a-z]{2,4}));/g, (whole, hex, decimal, word) => {
    if (word !== undefined) return Object.hasOwn(named, word) ? (named[word] ?? whole) : whole;
    const code = hex === undefined ? Number(decimal) : Number.parseInt(hex, 16);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

/**
 * Whether every tag ends before the next begins. What is not so is no XML, and readers look for the end of such a tag again and again.
 */
export function tagsEnd(xml: string): boolean {
  let at = xml.indexOf('<');
  while (at !== -1) {
    // In comments and literal text anything may stand.
    const close = xml.startsWith('<!--', at) ? '-->' : xml.startsWith('<![CDATA[', at) ? ']]>' : '>';
    const end = xml.indexOf(close, at + 1);
    const next = xml.indexOf('<', at + 1);
    if (end === -1 || (close === '>' && next !== -1 && next < end)) return false;
    at = close === '>' ? next : xml.indexOf('<', end);
  }
  return true;
}
