import { type ChildProcess, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { Dealer, Subscriber } from 'zeromq';
import { kernelCommand } from '../../notebooks/kernel-command.mjs';
import { freePorts } from './free-ports.js';
import { fromFrames, question, toFrames, type WireMessage } from './wire-message.js';

/** What a run of one cell sent: the reply's status and every message published meanwhile, in order. */
export interface CellRun {
  readonly status: string;
  readonly messages: readonly WireMessage[];
}

export interface Kernel {
  execute(code: string): Promise<CellRun>;
  stop(): Promise<void>;
}

/** Starts the real kernel in a folder and speaks with it as Jupyter would, without Jupyter. */
export async function startKernel(folder: string): Promise<Kernel> {
  const scratch = mkdtempSync(join(tmpdir(), 'kernel-'));
  const connection = await writeConnection(join(scratch, 'connection.json'));
  const [program, ...commandArguments] = kernelCommand() as [string, ...string[]];
  const child = spawn(program, [...commandArguments, connection.file], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  const shell = new Dealer();
  const published = new Subscriber();
  const stop = async () => {
    shell.close();
    published.close();
    await ended(child);
    rmSync(scratch, { recursive: true, force: true });
  };
  shell.connect(connection.shell);
  published.connect(connection.published);
  published.subscribe();
  const ask = (message: WireMessage) => shell.send(toFrames(message, connection.key));
  const received = collect(published, connection.key);
  const replies = collect(shell, connection.key);
  const failed = failure(child);
  try {
    await Promise.race([untilBothChannelsSpeak(ask, received, replies), failed]);
  } catch (error) {
    await stop();
    throw error;
  }
  return { execute: (code) => Promise.race([execute(code, ask, received, replies), failed]), stop };
}

interface Connection {
  readonly file: string;
  readonly key: string;
  readonly shell: string;
  readonly published: string;
}

async function writeConnection(file: string): Promise<Connection> {
  const key = randomUUID();
  const [shell_port, iopub_port, stdin_port, control_port, hb_port] = await freePorts(5);
  const ports = { shell_port, iopub_port, stdin_port, control_port, hb_port };
  const how = { transport: 'tcp', ip: '127.0.0.1', signature_scheme: 'hmac-sha256', key };
  writeFileSync(file, JSON.stringify({ ...how, ...ports }));
  const address = (port: number | undefined) => `tcp://127.0.0.1:${port}`;
  return { file, key, shell: address(shell_port), published: address(iopub_port) };
}

/** Messages as they come, kept until they are asked for. */
function collect(socket: Dealer | Subscriber, key: string): WireMessage[] {
  const messages: WireMessage[] = [];
  const listen = async () => {
    for await (const frames of socket) messages.push(fromFrames(frames, key));
  };
  // The loop ends when the socket is closed; a message with a wrong signature shows as an answer that never comes.
  listen().catch((error) => process.emitWarning(String(error)));
  return messages;
}

async function untilBothChannelsSpeak(
  ask: (message: WireMessage) => Promise<void>,
  published: readonly WireMessage[],
  replies: readonly WireMessage[],
): Promise<void> {
  while (published.length === 0 || replies.length === 0) {
    await ask(question('kernel_info_request', {}));
    await pause(50);
  }
}

async function execute(
  code: string,
  ask: (message: WireMessage) => Promise<void>,
  published: readonly WireMessage[],
  replies: readonly WireMessage[],
): Promise<CellRun> {
  const request = question('execute_request', { code, silent: false, store_history: true, allow_stdin: false });
  await ask(request);
  const answers = (messages: readonly WireMessage[]) => messages.filter((message) => message.parent === request.id);
  const idle = (message: WireMessage) => message.type === 'status' && message.content.execution_state === 'idle';
  while (!answers(published).some(idle) || answers(replies).length === 0) await pause(5);
  const status = String(answers(replies)[0]?.content.status);
  return { status, messages: answers(published).filter((message) => message.type !== 'status') };
}

function failure(child: ChildProcess): Promise<never> {
  let said = '';
  child.stderr?.on('data', (data) => {
    said += String(data);
  });
  const failed = once(child, 'exit').then(([code]) => {
    throw new Error(`the kernel ended with code ${code}: ${said}`);
  });
  // Nobody waits for it once the kernel is stopped on purpose.
  failed.catch(() => {});
  return failed;
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  child.kill();
  await once(child, 'exit');
}
