import { createReadStream, createWriteStream } from 'node:fs';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';

const lineFeed = 0x0a;
const carriageReturn = 0x0d;

/** Whether the lines of a file end in more than one way, or in the old way of a carriage return alone: the engine reads neither. */
export async function hasUnlikeLineEnds(path: string): Promise<boolean> {
  let [alone, pairs, feeds] = [0, 0, 0];
  let last: number | undefined;
  for await (const chunk of createReadStream(path) as AsyncIterable<Buffer>) {
    for (const byte of chunk) {
      if (byte === lineFeed && last === carriageReturn) pairs++;
      else {
        if (byte === lineFeed) feeds++;
        if (last === carriageReturn) alone++;
      }
      last = byte;
    }
  }
  if (last === carriageReturn) alone++;
  return alone > 0 || (pairs > 0 && feeds > 0);
}

/** Copies a text with every line ended by a line feed, piece by piece. */
export async function withLineFeeds(from: string, to: string): Promise<void> {
  let pending = false;
  const unify = new Transform({
    transform(chunk: Buffer, _, done) {
      // Latin-1 takes every byte for a letter, and gives it back as it was.
      const text = `${pending ? '\r' : ''}${chunk.toString('latin1')}`;
      pending = text.endsWith('\r');
      done(null, Buffer.from((pending ? text.slice(0, -1) : text).replace(/\r\n?/g, '\n'), 'latin1'));
    },
    flush(done) {
      done(null, pending ? '\n' : '');
    },
  });
  await pipeline(createReadStream(from), unify, createWriteStream(to));
}
