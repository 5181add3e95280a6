// SPDX-License-Identifier: MIT
// The IFC 4 schema as web-ifc declares it: classes with their attributes and what they descend from, enumerations, and
// selections. Judges every instance of an open model by it.
import fs from "node:fs";
import { createRequire } from "node:module";

const declarations = createRequire(import.meta.url).resolve("web-ifc").replace(/[^/]*$/, "ifc-schema.d.ts");

export function readSchema() {
    const text = fs.readFileSync(declarations, "utf8");
    const start = text.indexOf("export declare namespace IFC4 {");
    const space = text.slice(start, text.indexOf("\nexport declare namespace", start + 1));
    const classes = new Map(), selections = new Map(), byCode = new Map();
    for (const [, name, , parent, body] of space.matchAll(/^ {4}class (\w+)( extends (\w+)(?:<[^>]*>)?)? \{\n(.*?)^ {4}\}/gms)) {
        const values = [...body.matchAll(/^ {8}static (\w+): any;/gm)].map((m) => m[1]);
        const made = body.match(/^ {8}constructor\((.*)\);$/m)?.[1] ?? "";  // leaves out what is read backwards
        const attributes = [...body.matchAll(/^ {8}(\w+): (.*);$/gm)].map((m) => ({ name: m[1], type: m[2] }))
            .filter((a) => new RegExp(`(^|, )${a.name}: `).test(made));
        classes.set(name, { parent, attributes, values });
        byCode.set(name.toUpperCase(), name);
    }
    for (const [, name, type] of space.matchAll(/^ {4}type (\w+) = (.*);$/gm)) selections.set(name, type);
    return { classes, selections, byCode };
}

/// The names a type allows, selections opened: "A | (Handle<B> | B)[] | null" gives {A, B}.
function allowed(schema, type, into = new Set()) {
    for (const [word] of type.matchAll(/\w+/g)) {
        if (word === "Handle" || word === "null" || into.has(word)) continue;
        into.add(word);
        if (schema.selections.has(word)) allowed(schema, schema.selections.get(word), into);
    }
    return into;
}

function descends(schema, name, names) {
    for (let at = name; at; at = schema.classes.get(at)?.parent) if (names.has(at)) return true;
    return false;
}

/// web-ifc's kinds of argument
const label = 2, enumeration = 3, reference = 5;

function judgeValue(schema, model, value, names) {
    if (Array.isArray(value)) return value.map((v) => judgeValue(schema, model, v, names)).find(Boolean);
    if (value === null || value === undefined) return null;
    if (value.type === reference) {
        const found = model.classOf(value.value);
        return found && descends(schema, found, names) ? null : `refers to ${found ?? "nothing"} as #${value.value}`;
    }
    if (value.type === enumeration) {
        const logical = ["T", "F", "U"].includes(value.value) || typeof value.value === "boolean";
        const held = [...names].some((n) => schema.classes.get(n)?.values.includes(value.value));
        return held || logical ? null : `has no .${value.value}.`;
    }
    if (value.type === label) {
        const found = schema.byCode.get(model.nameOf(value.typecode).toUpperCase());
        return descends(schema, found, names) ? null : `may not hold ${model.nameOf(value.typecode)}`;
    }
    return null;
}

/// What an instance breaks: too few or many attributes, one missing, an unknown word, a reference to the wrong class.
export function judgeInstance(schema, model, name, args) {
    const known = schema.classes.get(name);
    if (!known) return `${name} is no class of IFC 4`;
    const held = args.filter((a) => !(a && a.type === undefined && a.value === "*"));
    if (args.length !== known.attributes.length && name !== "IfcSIUnit")
        return `${name} has ${args.length} attributes, not ${known.attributes.length}`;
    if (name === "IfcSIUnit" || name === "IfcGeometricRepresentationSubContext") return null;  // with derived attributes
    for (let i = 0; i < held.length; ++i) {
        const attribute = known.attributes[i];
        if (args[i] === null || args[i] === undefined) {
            if (!/\bnull\b/.test(attribute.type)) return `${name}.${attribute.name} is missing`;
            continue;
        }
        const list = /\[\]/.test(attribute.type);
        if (list !== Array.isArray(args[i]) && args[i].type !== label)
            return `${name}.${attribute.name} is ${list ? "not a list" : "a list"}`;
        attribute.allowed ??= allowed(schema, attribute.type);
        const broken = judgeValue(schema, model, args[i], attribute.allowed);
        if (broken) return `${name}.${attribute.name} ${broken}`;
    }
    return null;
}
