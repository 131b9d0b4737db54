// The package holds what the editor needs, and nothing else.

import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

// A .vsix is a zip: its list of names stands at its end.
const bytes = readFileSync('setwright.vsix');
const names = [];
let at = bytes.readUInt32LE(bytes.lastIndexOf(Buffer.from('PK\x05\x06')) + 16);
while (bytes.readUInt32LE(at) === 0x02014b50) {
  const length = bytes.readUInt16LE(at + 28);
  names.push(bytes.toString('utf8', at + 46, at + 46 + length));
  at += 46 + length + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
}
const wanted = [
  '[Content_Types].xml',
  'extension.vsixmanifest',
  'extension/LICENSE.txt',
  'extension/README.md',
  'extension/dist/LICENSES.txt',
  'extension/dist/client.js',
  'extension/language-configuration.json',
  'extension/package.json',
  'extension/syntaxes/setwright.tmLanguage.json',
];
const is = names.sort().join('\n');
if (is !== wanted.join('\n')) {
  console.error(`the package holds:\n${is}\nand should hold:\n${wanted.join('\n')}`);
  process.exit(1);
}
// What the extension names is there, and the client reads as a program.
const manifest = JSON.parse(readFileSync('package.json', 'utf8'));
for (const path of [
  manifest.main,
  manifest.contributes.languages[0].configuration,
  manifest.contributes.grammars[0].path,
]) {
  if (!names.includes(path.replace('./', 'extension/'))) throw new Error(`${path} is not in it`);
}
execFileSync(process.execPath, ['--check', manifest.main]);
console.log(`setwright.vsix: ${names.length} files, ${Math.round(bytes.length / 1024)} kB`);
