import fc from 'fast-check';
import { expect, it } from 'vitest';
import writeWorkbook from 'write-excel-file/node';
import { ArchiveTooLargeError, openArchive } from '../../../src/records/folder/open-archive.js';
import { zipOf } from '../../helpers/zip-of.js';

const anyFiles = fc
  .dictionary(fc.stringMatching(/^[a-z/]{1,12}$/), fc.uint8Array({ maxLength: 300 }), { maxKeys: 5 })
  .map((files) => new Map(Object.entries(files)));

const plain = (files: ReadonlyMap<string, Uint8Array> | undefined) =>
  files && Object.fromEntries([...files].map(([name, content]) => [name, [...content]]));

it('openArchive(bytes) gives back what was packed, deflated or stored', () => {
  fc.assert(
    fc.property(anyFiles, fc.constantFrom('deflated' as const, 'stored' as const), (files, method) => {
      expect(plain(openArchive(zipOf(files, method)))).toEqual(plain(files));
    }),
  );
});

it('openArchive(bytes) opens a workbook written by another library', async () => {
  const workbook = await writeWorkbook([['wall'], ['w1']]).toBuffer();
  expect([...(openArchive(workbook)?.keys() ?? [])]).toContain('xl/workbook.xml');
});

it('openArchive(bytes) gives nothing, or the same content, when a byte is changed', () => {
  const files = new Map([['walls', new TextEncoder().encode('wall,arm\nw1,treated\n'.repeat(5))]]);
  const archive = zipOf(files);
  let refused = 0;
  for (let at = 0; at < archive.length; at++) {
    const damaged = archive.slice();
    damaged[at] = (damaged[at] ?? 0) ^ 0x21;
    const opened = openArchive(damaged);
    if (opened === undefined) refused++;
    // Names and times carry no check sum.
    else
      expect([...opened.values()].map((content) => [...content])).toEqual(
        [...files.values()].map((content) => [...content]),
      );
  }
  expect(refused).toBeGreaterThan(archive.length / 3);
});

it('openArchive(bytes, wanted) does not unpack, and does not mind, what is not wanted', () => {
  const blanks = new Uint8Array(129 * 1024 * 1024);
  const archive = zipOf(
    new Map([
      ['a', Uint8Array.from([1, 2, 3])],
      ['b', blanks],
    ]),
  );
  expect(plain(openArchive(archive, (name) => name === 'a'))).toEqual({ a: [1, 2, 3] });
  expect(() => openArchive(archive)).toThrow(ArchiveTooLargeError);
});

it('openArchive(bytes) gives nothing for what is no archive or is cut off', () => {
  const archive = zipOf(new Map([['a', Uint8Array.from([1, 2, 3])]]));
  for (let length = 0; length < archive.length; length++) expect(openArchive(archive.slice(0, length))).toBeUndefined();
  expect(openArchive(new TextEncoder().encode('wall,arm\n'))).toBeUndefined();
});
