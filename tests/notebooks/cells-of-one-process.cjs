/*
 * The kernel without its sockets: a process that runs the cells of one notebook after another with the kernel's own compiler, executor
 * and answers. What a kernel spends most on, its TypeScript and the declarations that it reads, is spent once; the variables of a
 * notebook end with it.
 */
require('../../notebooks/without-watching.cjs');
const { createConverter } = require('tslab/dist/converter.js');
const { createExecutor } = require('tslab/dist/executor.js');
const { JupyterHandlerImpl } = require('tslab/dist/jupyter.js');

const node = createConverter({ isJS: false, isBrowser: false });
const settings = [process.cwd(), { node, close() {} }, { log: console.log, error: console.error }];
let handler;

process.on('message', async ({ code, isFirst }) => {
  if (isFirst) handler = new JupyterHandlerImpl(createExecutor(...settings), false);
  const messages = [];
  const publish = (type, content) => messages.push({ type, content });
  const { status } = await handler.handleExecute(
    { code },
    (name, text) => publish('stream', { name, text }),
    (content, isUpdate) => publish(isUpdate ? 'update_display_data' : 'display_data', content),
  );
  process.send({ status, messages });
});
process.send('ready');
