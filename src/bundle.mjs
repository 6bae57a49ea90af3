// Packs the command into few files:  node src/bundle.mjs, after the compiler and as the last step of `npm run build`.
//
// Finding and opening a thousand small files takes a cold start longer than reading them. `dist/cli.js` is written anew, with its parts in
// `dist/bundle/`, each loaded where the command first needs it; the library's own files stay as the compiler wrote them.
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

const root = join(import.meta.dirname, '..');
const entry = 'dist/cli.js';
const parts = 'dist/bundle';

const { metafile } = await build({
  absWorkingDir: root,
  entryPoints: [entry],
  outdir: 'dist',
  allowOverwrite: true,
  // Files that the code finds beside itself, such as package.json, are two folders up from a part, as from a room of the library.
  chunkNames: 'bundle/[name]-[hash]',
  bundle: true,
  splitting: true,
  platform: 'node',
  format: 'esm',
  target: 'node20.19',
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  // The database and the renderer of pictures have parts of machine code, the writer of text documents is seldom asked for, and what the parser of plans is loaded with cannot be packed.
  external: ['@duckdb/*', 'jsonc-parser', 'sharp', 'docx'],
  metafile: true,
  logLevel: 'warning',
});

// It belongs to the file that the compiler wrote.
rmSync(join(root, `${entry}.map`));
writeFileSync(join(root, parts, 'LICENSES.txt'), licences(packagesIn(metafile)));

/** The packages of which anything was packed, by folder. */
function packagesIn({ outputs }) {
  const packed = Object.values(outputs).flatMap(({ inputs }) => Object.keys(inputs));
  const folders = packed.flatMap((file) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file)?.[0] ?? []);
  return [...new Set(folders)].sort();
}

/** Their licences ask that their texts go with every copy. */
function licences(folders) {
  const texts = folders.map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
    const file = readdirSync(join(root, folder)).find((each) => /^licen[cs]e/i.test(each));
    if (file === undefined) throw new Error(`${name} has no licence text to go with what is packed of it`);
    return `${name} ${version} (${license})\n\n${readFileSync(join(root, folder, file), 'utf8').trim()}\n`;
  });
  return `The files beside this one hold code of these packages.\n\n${texts.join(`\n${'-'.repeat(80)}\n\n`)}`;
}
