// SPDX-License-Identifier: MIT
// What a DXF file holds by an independent parser: node dxf.mjs FILE
import fs from "node:fs";
import DxfParser from "dxf-parser";

const Parser = DxfParser.default ?? DxfParser;
const dxf = new Parser().parseSync(fs.readFileSync(process.argv[2], "utf8"));
const blocks = Object.values(dxf.blocks).map(({ name, entities }) => ({ name, entities: entities ?? [] }));
const layers = Object.values(dxf.tables.layer.layers).map(({ name }) => name);
process.stdout.write(JSON.stringify({ version: dxf.header.$ACADVER, layers, blocks, entities: dxf.entities }));
