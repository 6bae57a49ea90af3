import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * The command that starts the TypeScript kernel of this checkout, up to the place of the connection file. Node 20 still warns
 * when a kernel loads a package made of ES modules; the warning names the process and would stand in the outputs.
 */
export function kernelCommand() {
  const tslab = dirname(fileURLToPath(import.meta.resolve('tslab/package.json')));
  return [
    process.execPath,
    '--disable-warning=ExperimentalWarning',
    '--require',
    join(import.meta.dirname, 'without-watching.cjs'),
    join(tslab, 'bin', 'tslab'),
    'kernel',
    '--config-path',
  ];
}
