import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildOnce } from '../helpers/build-once.js';

const root = join(import.meta.dirname, '../..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');

beforeAll(buildOnce, 120_000);

describe('README.md', () => {
  it('shows what npm start prints, to the letter', { timeout: 60_000 }, () => {
    const shown = /^```text\n(.*?)^```$/ms.exec(readme)?.[1];
    const { start } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).scripts as { start: string };
    const [program = '', script = '', verb = '', dataset = '', ...out] = start.split(' ');
    expect([program, verb]).toEqual(['node', 'opinion']);
    const cwd = mkdtempSync(join(tmpdir(), 'fairwall-readme-'));
    const words = [join(root, script), verb, join(root, dataset), ...out];
    const { stdout, stderr, status } = spawnSync(process.execPath, words, { cwd, encoding: 'utf8' });
    rmSync(cwd, { recursive: true });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout.trimEnd().replaceAll('\\', '/')).toBe(shown?.trimEnd());
  });

  it('is short enough to be read', () => {
    expect(readme.trimEnd().split('\n').length).toBeLessThanOrEqual(100);
  });

  it('leads to nothing that is not there', () => {
    const links = [...readme.matchAll(/\]\(([^)#]+)(?:#([^)]+))?\)/g)].filter(([, path = '']) => !path.includes(':'));
    expect(links.length).toBeGreaterThan(10);
    for (const [, path = '', heading] of links) {
      expect(existsSync(join(root, path)), path).toBe(true);
      if (heading === undefined) continue;
      const headings = readFileSync(join(root, path), 'utf8').matchAll(/^#+ (.*)$/gm);
      const names = [...headings].map(([, text = '']) =>
        text
          .toLowerCase()
          .replace(/[^\p{L}\p{N} -]/gu, '')
          .replaceAll(' ', '-'),
      );
      expect(names, heading).toContain(heading);
    }
  });
});
