import { createHmac, randomUUID } from 'node:crypto';

/** One message of the Jupyter wire protocol, version 5.3. */
export interface WireMessage {
  readonly type: string;
  readonly id: string;
  /** The id of the message that this one answers; empty for a question. */
  readonly parent: string;
  readonly content: Record<string, unknown>;
}

const delimiter = '<IDS|MSG>';

export function question(type: string, content: Record<string, unknown>): WireMessage {
  return { type, id: randomUUID(), parent: '', content };
}

/** The frames of a message: delimiter, signature, header, parent header, metadata, content. */
export function toFrames(message: WireMessage, key: string): string[] {
  const header = { msg_id: message.id, msg_type: message.type, username: 'test', session: 'test', version: '5.3' };
  const parts = [header, {}, {}, message.content].map((part) => JSON.stringify(part));
  return [delimiter, signature(parts, key), ...parts];
}

/** @throws when the frames are not a message signed with the key. */
export function fromFrames(frames: readonly Uint8Array[], key: string): WireMessage {
  const texts = frames.map((frame) => Buffer.from(frame).toString('utf8'));
  const start = texts.indexOf(delimiter);
  const [signed, ...parts] = texts.slice(start + 1);
  if (start < 0 || signed !== signature(parts, key))
    throw new Error('the kernel sent a message with a wrong signature');
  const [header, parent, , content] = parts.map((part) => JSON.parse(part));
  return { type: header.msg_type, id: header.msg_id, parent: parent.msg_id ?? '', content };
}

function signature(parts: readonly string[], key: string): string {
  const hash = createHmac('sha256', key);
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
}
