const endSignature = Buffer.from([0x50, 0x4b, 5, 6]);
/** The first day that the format knows, 1 January 1980; and midnight. */
const firstDay = 0x0021;
const midnight = 0;

/**
 * A ZIP archive whose entries bear no time, so that the same contents are the same bytes whenever they were written.
 *
 * Format: APPNOTE.TXT, the .ZIP file format specification, sections 4.3.7 (local header), 4.3.12 (central directory) and 4.4.6 (time).
 */
export function withoutTimes(archive: Buffer): Buffer {
  const timeless = Buffer.from(archive);
  const end = timeless.lastIndexOf(endSignature);
  let entry = timeless.readUInt32LE(end + 16);
  for (let count = timeless.readUInt16LE(end + 10); count > 0; count--) {
    setTime(timeless, entry + 12);
    setTime(timeless, timeless.readUInt32LE(entry + 42) + 10);
    const [name, extra, comment] = [28, 30, 32].map((place) => timeless.readUInt16LE(entry + place));
    entry += 46 + (name ?? 0) + (extra ?? 0) + (comment ?? 0);
  }
  return timeless;
}

function setTime(archive: Buffer, place: number): void {
  archive.writeUInt16LE(midnight, place);
  archive.writeUInt16LE(firstDay, place + 2);
}
