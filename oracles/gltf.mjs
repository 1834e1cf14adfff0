// Prints what gltf-validator finds in each file: errors, warnings, infos, hints. Called by exports.py.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const [modules, ...files] = process.argv.slice(2);
const validator = createRequire(`${modules}/`)('gltf-validator');
for (const file of files) {
  const { issues } = await validator.validateBytes(new Uint8Array(readFileSync(file)));
  console.log([file, issues.numErrors, issues.numWarnings, issues.numInfos, issues.numHints].join(' '));
}
