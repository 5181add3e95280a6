// SPDX-License-Identifier: MIT
// Makes tests/outside/data/flow_networks.csv: random looped networks solved by the EPANET engine.
// To remake it, from the repository's root: npm install --no-save epanet-js@0.9.0 && node tools/reference/random_networks.mjs
import fs from "node:fs";
import { Project, Workspace } from "epanet-js";

const wanted = 320;
const target = new URL("../../tests/outside/data/flow_networks.csv", import.meta.url);

function generator(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    below: (n) => Math.floor(next() * n),
    between: (a, b) => a + (b - a) * next(),
    chance: (p) => next() < p,
    one: (list) => list[Math.floor(next() * list.length)],
  };
}

const rounded = (value, digits) => Number(value.toPrecision(digits));

// Nodes first reservoirs, then junctions; every junction hangs on an earlier node, then further links close loops.
function drawn(seed) {
  const random = generator(seed);
  const law = seed % 2 ? "H-W" : "D-W";
  const nodes = [];
  const links = [];
  const reservoirs = 1 + random.below(4);
  const junctions = 6 + random.below(17);
  for (let i = 0; i < reservoirs; ++i) nodes.push({ id: `r${i}`, head: rounded(random.between(40, 70), 4) });
  for (let i = 0; i < junctions; ++i)
    nodes.push({ id: `j${i}`, demand: random.chance(0.7) ? rounded(random.between(0.1, 6), 3) : 0 });
  const pipe = (from, to, check = false) => ({
    kind: check ? "check" : "pipe", from, to,
    length: rounded(random.between(10, 400), 4),
    bore: random.one([50, 65, 80, 100, 125, 150, 200]),
    rough: law === "H-W" ? random.one([80, 100, 120, 130, 140, 150]) : random.one([0.0015, 0.046, 0.15, 0.26, 1]),
    local: random.chance(0.4) ? rounded(random.between(0.2, 12), 3) : 0,
  });
  for (let i = 0; i < junctions; ++i) {
    const to = reservoirs + i;
    links.push(pipe(i < reservoirs ? i : reservoirs + random.below(i), to));
  }
  const junction = () => reservoirs + random.below(junctions);
  for (let i = 0, more = 2 + random.below(junctions); i < more; ++i) {
    const from = random.chance(0.15) ? random.below(reservoirs) : junction();
    const to = junction();
    if (from !== to) links.push(pipe(from, to, random.chance(0.12)));
  }
  const beside = (id) => {
    nodes.push({ id, demand: 0 });
    return nodes.length - 1;
  };
  const count = (chance) => (random.chance(chance) ? 1 + random.below(2) : 0);
  for (let i = count(0.5); i > 0; --i) {
    const first = links[random.below(links.length)];
    const middle = beside(`m${nodes.length}`);
    links.push({ kind: "valve", from: middle, to: first.to, bore: first.bore, local: rounded(random.between(0.5, 60), 3) });
    first.to = middle;
  }
  for (let i = count(0.5); i > 0; --i) {
    const flow = rounded(random.between(2, 12), 3), head = rounded(random.between(8, 30), 3);
    const from = junction(), to = junction();
    if (from === to) continue;
    const middle = beside(`m${nodes.length}`);
    links.push({ kind: "pump", from, to: middle, shutoff: rounded(head * random.between(1.15, 1.4), 4), flow, head,
      flow2: rounded(flow * random.between(1.6, 2), 4), head2: rounded(head * random.between(0.2, 0.5), 4) });
    links.push(pipe(middle, to));
  }
  for (let i = count(0.4); i > 0; --i) {
    const candidates = links.filter((link) => link.kind === "pipe");
    const first = random.one(candidates);
    const before = beside(`m${nodes.length}`), after = beside(`m${nodes.length}`);
    const last = pipe(after, first.to);
    links.push({ kind: "regulator", from: before, to: after, bore: first.bore, setting: rounded(random.between(25, 55), 4),
      local: rounded(random.between(1, 10), 2) });
    links.push(last);
    first.to = before;
  }
  return { law, nodes, links };
}

function input({ law, nodes, links }) {
  const of = (kinds) => links.map((link, i) => [link, `l${i}`]).filter(([link]) => kinds.includes(link.kind));
  const ends = (link) => `${nodes[link.from].id} ${nodes[link.to].id}`;
  return [
    "[JUNCTIONS]", ...nodes.filter((n) => n.head === undefined).map((n) => `${n.id} 0 ${n.demand}`),
    "[RESERVOIRS]", ...nodes.filter((n) => n.head !== undefined).map((n) => `${n.id} ${n.head}`),
    "[PIPES]", ...of(["pipe", "check"]).map(([l, id]) =>
      `${id} ${ends(l)} ${l.length} ${l.bore} ${l.rough} ${l.local} ${l.kind === "check" ? "CV" : "OPEN"}`),
    "[PUMPS]", ...of(["pump"]).map(([l, id]) => `${id} ${ends(l)} HEAD c${id}`),
    "[VALVES]", ...of(["valve"]).map(([l, id]) => `${id} ${ends(l)} ${l.bore} TCV ${l.local} 0`),
    ...of(["regulator"]).map(([l, id]) => `${id} ${ends(l)} ${l.bore} PRV ${l.setting} ${l.local}`),
    "[CURVES]", ...of(["pump"]).flatMap(([l, id]) =>
      [`c${id} 0 ${l.shutoff}`, `c${id} ${l.flow} ${l.head}`, `c${id} ${l.flow2} ${l.head2}`]),
    "[OPTIONS]", "UNITS LPS", `HEADLOSS ${law}`, "VISCOSITY 1.0", "ACCURACY 0.00001", "HEADERROR 0.000001",
    "FLOWCHANGE 0.000001", "TRIALS 500", "UNBALANCED STOP", "[END]", "",
  ].join("\n");
}

// The package tells the engine's warnings on the console only.
let warned = false;
console.warn = () => { warned = true; };
const workspace = new Workspace();
await workspace.loadModule();
const model = new Project(workspace);

// Nothing when the engine warns: a pump out of its range, a negative pressure, a network it cannot balance.
function solved(network) {
  workspace.writeFile("network.inp", input(network));
  model.open("network.inp", "report.rpt", "out.bin");
  try {
    model.openH();
    model.initH(10);
    warned = false;
    model.runH();
    if (warned || model.getStatistic(1) > 1e-5) return undefined;
    return {
      heads: network.nodes.map((n) => model.getNodeValue(model.getNodeIndex(n.id), 10)),
      flows: network.links.map((_, i) => model.getLinkValue(model.getLinkIndex(`l${i}`), 8)),
    };
  } catch {
    return undefined;
  } finally {
    model.close();
  }
}

const number = workspace.version;  // 20305 is 2.3.5
const engine = [Math.floor(number / 10000), Math.floor(number / 100) % 100, number % 100].join(".");
// A part shut off on all sides has no head of its own: the engine gives it one, a solver may refuse.
function determined({ nodes, links }, { flows }) {
  const reached = new Set(nodes.flatMap((n, i) => (n.head === undefined ? [] : [i])));
  const passes = (link, i) => ["pipe", "valve"].includes(link.kind) || flows[i] > 1e-3;
  for (let size = 0; size !== reached.size; ) {
    size = reached.size;
    links.forEach((link, i) => {
      if (!passes(link, i)) return;
      if (reached.has(link.from)) reached.add(link.to);
      else if (reached.has(link.to)) reached.add(link.from);
    });
  }
  return reached.size === nodes.length;
}

const lines = [
  `# Random looped networks and their flows, computed by the EPANET engine ${engine} of the npm package epanet-js 0.9.0;`,
  "# made by tools/reference/random_networks.mjs (which says how to remake it). Units: m, mm, l/s; roughness in mm, or C.",
  "# network,number,head loss law",
  "# node,fixed head or empty,demand,head found",
  "# link,kind,from,to,flow found, then for pipe and check (no flow back): length,bore,roughness,local loss;",
  "#   valve: bore,local loss; regulator: bore,local loss,setting; pump: shut-off head, then two points flow,head",
];
let made = 0, refused = 0;
const kinds = {};
for (let seed = 1; made < wanted; ++seed) {
  const network = drawn(seed);
  const found = solved(network);
  if (!found || !determined(network, found)) {
    ++refused;
    continue;
  }
  lines.push(`network,${seed},${network.law}`);
  network.nodes.forEach((n, i) => lines.push(`node,${n.head ?? ""},${n.demand ?? ""},${rounded(found.heads[i], 9)}`));
  network.links.forEach((l, i) => {
    kinds[l.kind] = (kinds[l.kind] ?? 0) + 1;
    const flow = Math.abs(found.flows[i]) < 1e-9 ? 0 : rounded(found.flows[i], 8);
    const own = { pipe: [l.length, l.bore, l.rough, l.local], check: [l.length, l.bore, l.rough, l.local],
      valve: [l.bore, l.local], regulator: [l.bore, l.local, l.setting],
      pump: [l.shutoff, l.flow, l.head, l.flow2, l.head2] }[l.kind];
    lines.push(`link,${l.kind},${l.from},${l.to},${flow},${own.join(",")}`);
  });
  ++made;
}
fs.writeFileSync(target, lines.join("\n") + "\n");
console.log(`${made} networks, ${refused} left out; links: ${JSON.stringify(kinds)}`);
