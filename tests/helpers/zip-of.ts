import { crc32, deflateRawSync } from 'node:zlib';

/** A ZIP archive of some files, each deflated or stored. */
export function zipOf(files: ReadonlyMap<string, Uint8Array>, method: 'deflated' | 'stored' = 'deflated'): Uint8Array {
  const parts: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const [name, content] of files) {
    const packed = method === 'stored' ? Buffer.from(content) : deflateRawSync(content);
    const facts = Buffer.alloc(26);
    facts.writeUInt16LE(20, 0);
    facts.writeUInt16LE(method === 'stored' ? 0 : 8, 4);
    facts.writeUInt32LE(crc32(content), 10);
    facts.writeUInt32LE(packed.length, 14);
    facts.writeUInt32LE(content.length, 18);
    facts.writeUInt16LE(Buffer.byteLength(name), 22);
    const local = Buffer.concat([Buffer.from([0x50, 0x4b, 3, 4]), facts, Buffer.from(name), packed]);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE(offset, 10);
    directory.push(Buffer.from([0x50, 0x4b, 1, 2, 20, 0]), facts, tail, Buffer.from(name));
    parts.push(local);
    offset += local.length;
  }
  const entries = Buffer.concat(directory);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(files.size, 8);
  end.writeUInt16LE(files.size, 10);
  end.writeUInt32LE(entries.length, 12);
  end.writeUInt32LE(offset, 16);
  return Uint8Array.from(Buffer.concat([...parts, entries, end]));
}
