import { entriesOf } from '../records/folder/central-directory.js';

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
  for (const entry of entriesOf(timeless)) {
    setTime(timeless, entry + 12);
    setTime(timeless, timeless.readUInt32LE(entry + 42) + 10);
  }
  return timeless;
}

function setTime(archive: Buffer, place: number): void {
  archive.writeUInt16LE(midnight, place);
  archive.writeUInt16LE(firstDay, place + 2);
}
