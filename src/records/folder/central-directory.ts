const end = Buffer.from([0x50, 0x4b, 5, 6]);
const endLength = 22;
const entrySignature = 0x02014b50;
const entryLength = 46;

/**
 * Where the entries of a ZIP archive's central directory begin, in its order.
 *
 * Format: APPNOTE.TXT, the .ZIP file format specification, sections 4.3.12 (central directory) and 4.3.16 (its end).
 *
 * @throws Error, or the RangeError of a read beyond the end, where the directory is damaged
 */
export function* entriesOf(archive: Buffer): Generator<number> {
  const at = archive.lastIndexOf(end);
  if (at === -1 || archive.length < at + endLength + archive.readUInt16LE(at + 20))
    throw new Error('no end of the directory');
  let entry = archive.readUInt32LE(at + 16);
  for (let count = archive.readUInt16LE(at + 10); count > 0; count--) {
    if (archive.readUInt32LE(entry) !== entrySignature) throw new Error('no entry of the directory');
    yield entry;
    const [name, extra, comment] = [28, 30, 32].map((place) => archive.readUInt16LE(entry + place)) as [
      number,
      number,
      number,
    ];
    entry += entryLength + name + extra + comment;
  }
}
