import { crc32, inflateRawSync } from 'node:zlib';
import { entriesOf } from './central-directory.js';

/** What unpacks to more than this holds no tables of readings. A million cells take some 40 MB. */
const mostUnpacked = 128 * 1024 * 1024;

/** Thrown where the wanted files of an archive are larger than any table. */
export class ArchiveTooLargeError extends Error {
  override readonly name = 'ArchiveTooLargeError' as const;
}

/** The deflate format packs no more than so many bytes into one. */
const mostDense = 1032;

const localSignature = 0x04034b50;
const stored = 0;
const deflated = 8;

/**
 * Unpacks a ZIP archive, as a workbook is one, by its central directory, and holds every file against its check sum: the
 * workbook reader itself would take damaged bytes for cells.
 *
 * Format: APPNOTE.TXT, the .ZIP file format specification, sections 4.3.7 (local header), 4.3.12 (central directory) and
 * 4.3.16 (end of the directory). Archives in several parts and beyond 4 GB are not read.
 *
 * @param wanted which files to unpack; the others are not looked at.
 * @returns nothing when what was wanted is damaged in any way.
 * @throws ArchiveTooLargeError when it unpacks to more than 128 MB.
 */
export function openArchive(
  bytes: Uint8Array,
  wanted: (name: string) => boolean = () => true,
): ReadonlyMap<string, Uint8Array> | undefined {
  try {
    return unpack(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength), wanted);
  } catch (error) {
    if (error instanceof ArchiveTooLargeError) throw error;
    // Whatever zlib or a read beyond the end has to say, the archive is damaged.
    return undefined;
  }
}

function unpack(archive: Buffer, wanted: (name: string) => boolean): ReadonlyMap<string, Uint8Array> | undefined {
  const files = new Map<string, Uint8Array>();
  let unpacked = 0;
  for (const position of entriesOf(archive)) {
    const nameLength = archive.readUInt16LE(position + 28);
    const name = archive.toString('utf8', position + 46, position + 46 + nameLength);
    if (wanted(name)) {
      const size = archive.readUInt32LE(position + 24);
      // No packing is so tight: the size itself is damaged.
      if (size > mostDense * (archive.readUInt32LE(position + 20) + 1)) return undefined;
      unpacked += size;
      if (unpacked > mostUnpacked)
        throw new ArchiveTooLargeError(`more than ${mostUnpacked / 1024 / 1024} MB unpacked`);
      const content = contentOf(archive, position);
      if (content === undefined || files.has(name)) return undefined;
      files.set(name, content);
    }
  }
  return files;
}

function contentOf(archive: Buffer, entry: number): Buffer | undefined {
  const method = archive.readUInt16LE(entry + 10);
  const packedSize = archive.readUInt32LE(entry + 20);
  const size = archive.readUInt32LE(entry + 24);
  const local = archive.readUInt32LE(entry + 42);
  if (archive.readUInt32LE(local) !== localSignature) return undefined;
  const start = local + 30 + archive.readUInt16LE(local + 26) + archive.readUInt16LE(local + 28);
  const packed = archive.subarray(start, start + packedSize);
  const content =
    method === stored
      ? packed
      : method === deflated
        ? inflateRawSync(packed, { maxOutputLength: Math.max(1, size) })
        : undefined;
  if (content === undefined || content.length !== size) return undefined;
  return crc32(content) === archive.readUInt32LE(entry + 16) ? content : undefined;
}
