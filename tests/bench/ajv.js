// node ajv.js folder FOLDER SCHEMA: a process that walks, reads, parses and checks every profile with compiled ajv.
// node ajv.js memory FOLDER SCHEMA: prints nanoseconds a byte of JSON.parse and of the check, the best of ten passes.
'use strict';
const fs = require('fs'), path = require('path');
const Ajv = require('ajv');
const [what, folder, schema] = process.argv.slice(2);
const check = new Ajv({ strict: false, validateFormats: false }).compile(JSON.parse(fs.readFileSync(schema, 'utf8')));
const files = fs.readdirSync(folder, { recursive: true }).filter(name => name.endsWith('.profile.json'));
if (what === 'folder') {
  let bad = 0;
  for (const name of files) bad += !check(JSON.parse(fs.readFileSync(path.join(folder, name), 'utf8')));
  console.log(`${files.length} profiles, ${bad} refused`);
  process.exit(bad ? 1 : 0);
}
const texts = files.sort().slice(0, 500).map(name => fs.readFileSync(path.join(folder, name), 'utf8'));
const bytes = texts.reduce((sum, text) => sum + Buffer.byteLength(text), 0);
const documents = texts.map(text => JSON.parse(text));
const best = work => {
  let least = Infinity;
  for (let pass = 0; pass < 10; ++pass) {
    const begin = process.hrtime.bigint();
    work();
    least = Math.min(least, Number(process.hrtime.bigint() - begin) / bytes);
  }
  return least;
};
console.log(best(() => texts.forEach(text => JSON.parse(text))), best(() => documents.forEach(one => check(one))));
