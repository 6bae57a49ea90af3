import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Around a whole run of the tests: a folder in which its workers leave each other what is dear to make. Gone with the run. */
export default function aroundTheRun(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'fairwall-run-'));
  process.env.FAIRWALL_RUN = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}
