// Judges a glTF file by the validator of its makers and tells it: node gltf.mjs FILE
// Prints one JSON document: the validator's issues, and what stands where.
import fs from "node:fs";
import validator from "gltf-validator";

const bytes = new Uint8Array(fs.readFileSync(process.argv[2]));
const report = await validator.validateBytes(bytes, { maxIssues: 1000 });
process.stdout.write(JSON.stringify(report));
