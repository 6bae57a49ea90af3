import { crc32 } from 'node:zlib';

/**
 * A ZIP archive of some files as they are, not compressed: so that the workbook reader meets what has been checked, and nothing else.
 *
 * Format: as in `open-archive.ts`.
 */
export function packArchive(files: ReadonlyMap<string, Uint8Array>): Uint8Array<ArrayBuffer> {
  const parts: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let offset = 0;
  for (const [name, content] of files) {
    const nameBytes = Buffer.from(name);
    // Version 2.0, no flags, stored, no time.
    const facts = Buffer.alloc(26);
    facts.writeUInt16LE(20, 0);
    facts.writeUInt32LE(crc32(content), 10);
    facts.writeUInt32LE(content.length, 14);
    facts.writeUInt32LE(content.length, 18);
    facts.writeUInt16LE(nameBytes.length, 22);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(offset, 10);
    parts.push(Buffer.from([0x50, 0x4b, 3, 4]), facts, nameBytes, content);
    directory.push(Buffer.from([0x50, 0x4b, 1, 2, 20, 0]), facts, place, nameBytes);
    offset += 30 + nameBytes.length + content.length;
  }
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(files.size, 8);
  end.writeUInt16LE(files.size, 10);
  end.writeUInt32LE(
    directory.reduce((sum, { length }) => sum + length, 0),
    12,
  );
  end.writeUInt32LE(offset, 16);
  return Uint8Array.from(Buffer.concat([...parts, ...directory, end]));
}
