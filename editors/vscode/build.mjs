// Bundles the client, and writes down the licences of what is bundled with it.

import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';

const { metafile } = await build({
  entryPoints: ['src/client.js'],
  outfile: 'dist/client.js',
  bundle: true,
  minify: true,
  metafile: true,
  platform: 'node',
  format: 'cjs',
  target: 'node18',
  external: ['vscode'],
});

const folders = new Set();
for (const path of Object.keys(metafile.inputs)) {
  const found = path.match(/^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/);
  if (found) folders.add(found[0]);
}
const notices = [...folders].sort().map(folder => {
  const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  const file = readdirSync(folder).find(name => /^licen[cs]e/i.test(name));
  if (!file) throw new Error(`${name} has no licence file`);
  const text = readFileSync(`${folder}/${file}`, 'utf8').trim();
  return `${name} ${version} (${license})\n\n${text}\n`;
});
writeFileSync('dist/LICENSES.txt', `Bundled into client.js:\n\n${notices.join('\n\n')}`);
