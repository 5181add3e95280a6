// SPDX-License-Identifier: MIT
// Reads an IFC file with web-ifc and tells what is in it: node ifc.mjs FILE
// Prints one JSON document. `broken` holds whatever the schema does not allow; `said` whatever the reader complained of.
import fs from "node:fs";
import { judgeInstance, readSchema } from "./ifc_schema.mjs";

const said = [];
for (const kind of ["log", "warn", "error", "debug", "trace"])
    console[kind] = (...words) => said.push(words.map(String).join(" "));
const web = await import("web-ifc");
const api = new web.IfcAPI();
await api.Init();
api.SetLogLevel(web.LogLevel.LOG_LEVEL_WARN);
said.splice(0);  // its greeting
const model = api.OpenModel(new Uint8Array(fs.readFileSync(process.argv[2])));

const counts = {}, broken = [], guids = new Map();
const classes = new Map(), schema = readSchema();
const names = new Map();
const nameOf = (code) => {
    if (!names.has(code)) names.set(code, api.GetNameFromTypeCode(code));
    return names.get(code);
};
const classOf = (id) => {
    if (!classes.has(id)) classes.set(id, nameOf(api.GetLineType(model, id)));
    return classes.get(id);
};
const lines = api.GetAllLines(model);
const raw = new Map();
for (let i = 0; i < lines.size(); ++i) raw.set(lines.get(i), api.GetRawLineData(model, lines.get(i)).arguments);

const descends = (name, of) => {
    for (let at = name; at; at = schema.classes.get(at)?.parent) if (at === of) return true;
    return false;
};
for (const [id, args] of raw) {
    const name = classOf(id);
    counts[name] = (counts[name] ?? 0) + 1;
    const wrong = judgeInstance(schema, { classOf, nameOf }, name, args);
    if (wrong) broken.push(`#${id}: ${wrong}`);
    if (!descends(name, "IfcRoot")) continue;
    const guid = args[0].value;
    if (!/^[0-3][0-9A-Za-z_$]{21}$/.test(guid)) broken.push(`#${id}: ${guid} is no GlobalId`);
    if (guids.has(guid)) broken.push(`#${id}: GlobalId of #${guids.get(guid)} again`);
    guids.set(guid, id);
}

const text = (value) => value?.value ?? null;
const elements = {}, byId = new Map();
for (const [id, args] of raw) {
    if (!descends(classOf(id), "IfcElement")) continue;
    const attributes = schema.classes.get(classOf(id)).attributes;
    const kind = attributes.findIndex((a) => a.name === "PredefinedType");
    const element = { class: classOf(id), kind: kind < 0 ? null : text(args[kind]), object: text(args[4]), tag: text(args[7]),
        guid: text(args[0]), sets: {}, systems: [] };
    if (elements[text(args[2])]) broken.push(`#${id}: ${text(args[2])} again`);
    elements[text(args[2])] = element;
    byId.set(id, element);
}
const single = (id) => {
    const args = raw.get(id), name = classOf(id);
    const at = name === "IfcPropertySingleValue" ? 2 : 3;
    return [text(args[0]), args[at]?.value];
};
for (const [id, args] of raw) {
    if (classOf(id) === "IfcRelDefinesByProperties") {
        const set = raw.get(args[5].value);
        const held = set[classOf(args[5].value) === "IfcElementQuantity" ? 5 : 4];
        for (const one of args[4])
            byId.get(one.value).sets[text(set[2])] = Object.fromEntries(held.map((p) => single(p.value)));
    }
    if (classOf(id) === "IfcRelDefinesByType") for (const one of args[4]) byId.get(one.value).type = text(raw.get(args[5].value)[2]);
    if (classOf(id) === "IfcRelContainedInSpatialStructure") for (const one of args[4]) byId.get(one.value).within = classOf(args[5].value);
    if (classOf(id) === "IfcRelAssignsToGroup") for (const one of args[4]) byId.get(one.value).systems.push(text(raw.get(args[6].value)[2]));
}

const project = api.GetLine(model, api.GetLineIDsWithType(model, web.IFCPROJECT).get(0)).Name.value;
const ports = {}, portOwner = new Map(), joined = [];
for (const [id, args] of raw)
    if (classOf(id) === "IfcRelNests") for (const one of args[5]) portOwner.set(one.value, args[4].value);
for (const [id, args] of raw) {
    if (classOf(id) !== "IfcDistributionPort") continue;
    ports[text(args[2])] = { flow: text(args[7]), kind: text(args[8]), system: text(args[9]), meets: text(args[3]),
        owner: text(raw.get(portOwner.get(id))?.[2]) };
}
for (const [id, args] of raw)
    if (classOf(id) === "IfcRelConnectsPorts") joined.push([text(raw.get(args[4].value)[2]), text(raw.get(args[5].value)[2])]);
const held = [...raw].filter(([id]) => classOf(id) === "IfcRelConnectsElements")
    .map(([, args]) => [text(raw.get(args[5].value)[2]), text(raw.get(args[6].value)[2])]);
const systems = {};
for (const [id, args] of raw)
    if (classOf(id) === "IfcDistributionSystem") systems[text(args[2])] = { kind: text(args[6]), object: text(args[4]) };

// triangles of every element and of the space, z up in metres: bounds and the volume they enclose
const times = (m, x, y, z) => [0, 1, 2].map((r) => m[r] * x + m[4 + r] * y + m[8 + r] * z + m[12 + r]);
const bodyOf = (mesh) => {
    const low = [1e9, 1e9, 1e9], high = [-1e9, -1e9, -1e9];
    let volume = 0, triangles = 0;
    for (let g = 0; g < mesh.geometries.size(); ++g) {
        const placed = mesh.geometries.get(g), geometry = api.GetGeometry(model, placed.geometryExpressID);
        const v = api.GetVertexArray(geometry.GetVertexData(), geometry.GetVertexDataSize());
        const index = api.GetIndexArray(geometry.GetIndexData(), geometry.GetIndexDataSize());
        const corner = (k) => {  // the reader turns y up; turned back
            const [x, y, z] = times(placed.flatTransformation, v[6 * k], v[6 * k + 1], v[6 * k + 2]);
            return [x, -z, y];
        };
        for (let t = 0; t < index.length; t += 3, ++triangles) {
            const [a, b, c] = [corner(index[t]), corner(index[t + 1]), corner(index[t + 2])];
            volume += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6;
            for (const p of [a, b, c]) for (let i = 0; i < 3; ++i) low[i] = Math.min(low[i], p[i]), high[i] = Math.max(high[i], p[i]);
        }
    }
    return { volume: Math.abs(volume), low, high, triangles };
};
api.StreamAllMeshes(model, (mesh) => {
    const element = byId.get(mesh.expressID);
    if (element) Object.assign(element, bodyOf(mesh));
});
const space = bodyOf(api.GetFlatMesh(model, api.GetLineIDsWithType(model, web.IFCSPACE).get(0)));

process.stdout.write(JSON.stringify({ schema: api.GetModelSchema(model), project, counts, broken, said, elements, ports, joined, held, systems, space }));
