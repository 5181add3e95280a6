// SPDX-License-Identifier: MIT
// Draws a .glb as a PNG, for docs/ and for looking at a model where no viewer is: no library, no display.
//     node tools/picture.mjs plant.glb picture.png [azimuth] [elevation] [width] [name-prefix]
// Parallel projection from `azimuth` degrees (0 looks along the room's +y, 90 along -x) and `elevation` degrees above
// the horizon; the background is white. With a prefix only nodes whose name begins with it are drawn.
import fs from "node:fs";
import zlib from "node:zlib";
import { readGlb } from "./glb.mjs";

const [file, to, azimuth = "30", elevation = "25", wide = "1600", prefix = ""] = process.argv.slice(2);
const a = (Number(azimuth) * Math.PI) / 180, e = (Number(elevation) * Math.PI) / 180;
const look = [Math.sin(a) * Math.cos(e), -Math.sin(e), -Math.cos(a) * Math.cos(e)];  // model's y is up, the room's y is -z
const right = [Math.cos(a), 0, Math.sin(a)];
const above = [right[1] * look[2] - right[2] * look[1], right[2] * look[0] - right[0] * look[2], right[0] * look[1] - right[1] * look[0]];
const dot = (p, q) => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];

const triangles = readGlb(file).filter((piece) => piece.name.startsWith(prefix)).flatMap((piece, id) => piece.triangles.map((corners) => ({
    colour: piece.material.pbrMetallicRoughness.baseColorFactor,
    id,
    p: corners.map((c) => ({ x: dot(c.at, right), y: dot(c.at, above), z: dot(c.at, look), n: c.normal })),
})));

let low = [1e9, 1e9], high = [-1e9, -1e9];
for (const t of triangles) for (const p of t.p) {
    low = [Math.min(low[0], p.x), Math.min(low[1], p.y)];
    high = [Math.max(high[0], p.x), Math.max(high[1], p.y)];
}
const fine = 3, margin = 12 * fine, width = Number(wide) * fine;
const k = (width - 2 * margin) / (high[0] - low[0]);
const height = Math.ceil(((high[1] - low[1]) * k + 2 * margin) / fine) * fine;
const depth = new Float64Array(width * height).fill(Infinity), ids = new Int32Array(width * height).fill(-1);
const ink = new Float32Array(width * height * 3).fill(1);
const light = [-0.35, 0.8, 0.48], lamp = light.map((c) => c / Math.hypot(...light));
for (const { p, colour, id } of triangles) {
    const q = p.map((v) => ({ x: margin + (v.x - low[0]) * k, y: height - margin - (v.y - low[1]) * k, z: v.z, n: v.n }));
    const area = (q[1].x - q[0].x) * (q[2].y - q[0].y) - (q[2].x - q[0].x) * (q[1].y - q[0].y);
    if (Math.abs(area) < 1e-9) continue;
    const x0 = Math.max(0, Math.floor(Math.min(q[0].x, q[1].x, q[2].x))), x1 = Math.min(width - 1, Math.ceil(Math.max(q[0].x, q[1].x, q[2].x)));
    const y0 = Math.max(0, Math.floor(Math.min(q[0].y, q[1].y, q[2].y))), y1 = Math.min(height - 1, Math.ceil(Math.max(q[0].y, q[1].y, q[2].y)));
    for (let y = y0; y <= y1; ++y) for (let x = x0; x <= x1; ++x) {
        const w1 = ((x - q[0].x) * (q[2].y - q[0].y) - (q[2].x - q[0].x) * (y - q[0].y)) / area;
        const w2 = ((q[1].x - q[0].x) * (y - q[0].y) - (x - q[0].x) * (q[1].y - q[0].y)) / area;
        if (w1 < 0 || w2 < 0 || w1 + w2 > 1) continue;
        const w0 = 1 - w1 - w2, z = w0 * q[0].z + w1 * q[1].z + w2 * q[2].z, at = y * width + x;
        if (z >= depth[at]) continue;
        depth[at] = z, ids[at] = id;
        const n = [0, 1, 2].map((i) => w0 * q[0].n[i] + w1 * q[1].n[i] + w2 * q[2].n[i]);
        const shade = 0.45 + 0.45 * Math.max(0, dot(n, lamp)) + 0.2 * Math.max(0, -dot(n, look));
        for (let i = 0; i < 3; ++i) ink[3 * at + i] = Math.min(1, colour[i] * shade);
    }
}
// an outline where one piece ends and another, farther one begins
for (let y = 1; y < height; ++y) for (let x = 1; x < width; ++x) {
    const at = y * width + x;
    for (const other of [at - 1, at - width])
        if (ids[at] !== ids[other] && Math.abs(depth[at] - depth[other]) > 0.003) {
            const near = depth[at] < depth[other] ? at : other;
            for (let i = 0; i < 3; ++i) ink[3 * near + i] *= 0.35;
        }
}
const w = width / fine, h = height / fine, rows = Buffer.alloc((1 + 3 * w) * h);
for (let y = 0; y < h; ++y) for (let x = 0; x < w; ++x) for (let i = 0; i < 3; ++i) {
    let sum = 0;
    for (let dy = 0; dy < fine; ++dy) for (let dx = 0; dx < fine; ++dx) sum += ink[3 * ((fine * y + dy) * width + fine * x + dx) + i];
    const linear = sum / (fine * fine), srgb = linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
    rows[y * (1 + 3 * w) + 1 + 3 * x + i] = Math.round(255 * srgb);
}
const table = Uint32Array.from({ length: 256 }, (_, n) => { for (let i = 0; i < 8; ++i) n = n & 1 ? 0xedb88320 ^ (n >>> 1) : n >>> 1; return n >>> 0; });
function chunk(kind, data) {
    const body = Buffer.concat([Buffer.from(kind), data]), out = Buffer.alloc(body.length + 8);
    let crc = 0xffffffff;
    for (const b of body) crc = table[(crc ^ b) & 255] ^ (crc >>> 8);
    out.writeUInt32BE(data.length, 0), body.copy(out, 4), out.writeUInt32BE((crc ^ 0xffffffff) >>> 0, out.length - 4);
    return out;
}
const head = Buffer.alloc(13);
head.writeUInt32BE(w, 0), head.writeUInt32BE(h, 4), (head[8] = 8), (head[9] = 2);
fs.writeFileSync(to, Buffer.concat([Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]), chunk("IHDR", head), chunk("IDAT", zlib.deflateSync(rows, { level: 9 })), chunk("IEND", Buffer.alloc(0))]));
