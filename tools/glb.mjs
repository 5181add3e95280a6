// SPDX-License-Identifier: MIT
// Reads a binary glTF 2.0 file into triangles as they stand in the world; what the picture and the tests are made of.
import fs from "node:fs";

function accessor(gltf, binary, index) {
    const a = gltf.accessors[index], view = gltf.bufferViews[a.bufferView];
    const size = { SCALAR: 1, VEC3: 3 }[a.type], float = a.componentType === 5126, each = float ? 4 : 2;
    const stride = view.byteStride ?? size * each, start = (view.byteOffset ?? 0) + (a.byteOffset ?? 0);
    const out = new Float64Array(a.count * size);
    for (let i = 0; i < a.count; ++i)
        for (let k = 0; k < size; ++k) {
            const at = start + i * stride + k * each;
            out[i * size + k] = float ? binary.readFloatLE(at) : binary.readUInt16LE(at);
        }
    return out;
}

function turn([x, y, z, w], v) {
    const t = [2 * (y * v[2] - z * v[1]), 2 * (z * v[0] - x * v[2]), 2 * (x * v[1] - y * v[0])];
    return [v[0] + w * t[0] + y * t[2] - z * t[1], v[1] + w * t[1] + z * t[0] - x * t[2],
        v[2] + w * t[2] + x * t[1] - y * t[0]];
}
function place(node, v) {
    const s = node.scale ?? [1, 1, 1], t = node.translation ?? [0, 0, 0];
    const r = turn(node.rotation ?? [0, 0, 0, 1], v.map((c, i) => c * s[i]));
    return r.map((c, i) => c + t[i]);
}
/// A normal is stretched by the inverse of the scale.
const lean = (node, v) => turn(node.rotation ?? [0, 0, 0, 1], v.map((c, i) => c / (node.scale?.[i] ?? 1)));

/// Every node with a mesh: its name, extras, the names above it (nearest first), its material, and its triangles as
/// corners [x, y, z] with their normals, y up.
export function readGlb(path) {
    const bytes = fs.readFileSync(path), size = bytes.readUInt32LE(12);
    const gltf = JSON.parse(bytes.subarray(20, 20 + size).toString()), binary = bytes.subarray(28 + size);
    const cache = new Map();
    const read = (index) => {
        if (!cache.has(index)) cache.set(index, accessor(gltf, binary, index));
        return cache.get(index);
    };
    const found = [];
    const visit = (index, over) => {
        const node = gltf.nodes[index], chain = [node, ...over];
        for (const part of node.mesh === undefined ? [] : gltf.meshes[node.mesh].primitives) {
            const at = read(part.attributes.POSITION), normal = read(part.attributes.NORMAL);
            const corners = [];
            for (let i = 0; i < at.length; i += 3) {
                let p = [...at.subarray(i, i + 3)], n = [...normal.subarray(i, i + 3)];
                for (const one of chain) (p = place(one, p)), (n = lean(one, n));
                const long = Math.hypot(...n);
                corners.push({ at: p, normal: n.map((c) => c / long) });
            }
            const order = read(part.indices), triangles = [];
            for (let i = 0; i < order.length; i += 3) triangles.push([corners[order[i]], corners[order[i + 1]], corners[order[i + 2]]]);
            found.push({ name: node.name, extras: node.extras, above: over.map((n) => n.name), triangles,
                material: gltf.materials[part.material] });
        }
        for (const child of node.children ?? []) visit(child, chain);
    };
    for (const root of gltf.scenes[gltf.scene].nodes) visit(root, []);
    return found;
}
