// SPDX-License-Identifier: MIT
// Judges a glTF file by the validator of the format's makers and tells what stands where: node gltf.mjs FILE
// Prints one JSON document; pieces' bounds and the volume their triangles enclose, z up in metres.
import fs from "node:fs";
import validator from "gltf-validator";
import { readGlb } from "../../tools/glb.mjs";

const file = process.argv[2];
const report = await validator.validateBytes(new Uint8Array(fs.readFileSync(file)), { maxIssues: 1000 });
const room = ([x, y, z]) => [x, -z, y];
const pieces = readGlb(file).map(({ name, extras, above, material, triangles }) => {
    const low = [1e9, 1e9, 1e9], high = [-1e9, -1e9, -1e9];
    let volume = 0, inward = 0;
    for (const corners of triangles) {
        const [a, b, c] = corners.map((k) => room(k.at));
        const cross = [b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0]];
        volume += (a[0] * cross[0] + a[1] * cross[1] + a[2] * cross[2]) / 6;
        const u = b.map((v, i) => v - a[i]), w = c.map((v, i) => v - a[i]);
        const face = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
        for (const k of corners) if (room(k.normal).reduce((sum, n, i) => sum + n * face[i], 0) <= 0) ++inward;
        for (const p of [a, b, c])
            for (let i = 0; i < 3; ++i) (low[i] = Math.min(low[i], p[i])), (high[i] = Math.max(high[i], p[i]));
    }
    return { name, extras, above, material: material.name, low, high, volume, inward };
});
process.stdout.write(JSON.stringify({ issues: report.issues, info: report.info, pieces }));
