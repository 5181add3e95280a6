// SPDX-License-Identifier: MIT
// Times the EPANET engine and this house's kernel on the same networks in one run. From the repository's root:
// npm install --no-save epanet-js@0.9.0 && node tools/reference/pace.mjs build/release/bench/bench_bankwright
import { execFileSync } from "node:child_process";
import fs from "node:fs";
import { Project, Workspace } from "epanet-js";

const side = 71;

// The grid of bench/flow.cpp.
function grid() {
  const name = (i, j) => `n${i}.${j}`;
  const junctions = [], reservoirs = [], pipes = [];
  const pipe = (from, to) => {
    const k = pipes.length;
    pipes.push(`p${k} ${from} ${to} ${20 + ((k * 37) % 61)} ${100 + 25 * ((k * 53) % 9)} 0.1 0`);
  };
  for (let i = 0; i < side; ++i)
    for (let j = 0; j < side; ++j) {
      const corner = (i === 0 && j === 0) || (i === side - 1 && j === side - 1);
      if (corner) reservoirs.push(`${name(i, j)} ${i === 0 ? 60 : 55}`);
      else junctions.push(`${name(i, j)} 0 ${(0.01 * (1 + ((7 * i + 13 * j) % 10))).toFixed(2)}`);
    }
  for (let i = 0; i < side; ++i)
    for (let j = 0; j < side; ++j) {
      if (j + 1 < side) pipe(name(i, j), name(i, j + 1));
      if (i + 1 < side) pipe(name(i, j), name(i + 1, j));
    }
  return ["[JUNCTIONS]", ...junctions, "[RESERVOIRS]", ...reservoirs, "[PIPES]", ...pipes, "[OPTIONS]", "UNITS LPS",
    "HEADLOSS D-W", "VISCOSITY 1.0", "ACCURACY 0.00001", "TRIALS 200", "[END]", ""].join("\n");
}

const workspace = new Workspace();
await workspace.loadModule();
const model = new Project(workspace);
const median = (times) => times.sort((a, b) => a - b)[times.length >> 1];

function timed(input, repeats, tap) {
  workspace.writeFile("network.inp", input);
  model.open("network.inp", "report.rpt", "out.bin");
  model.openH();
  const cold = [], warm = [];
  for (let i = 0; i < repeats; ++i) {
    const start = performance.now();
    model.initH(10);
    model.runH();
    cold.push(performance.now() - start);
  }
  const iterations = model.getStatistic(0);
  const node = tap ? model.getNodeIndex(tap) : 0;
  for (let i = 0; tap && i < repeats; ++i) {
    model.setNodeValue(node, 1, 5.6 * (i % 2 ? 1 : 1.02));
    const start = performance.now();
    model.initH(0);
    model.runH();
    warm.push(performance.now() - start);
  }
  model.closeH();
  model.close();
  return { cold: median(cold), warm: tap ? median(warm) : undefined, iterations };
}

const ladder = timed(fs.readFileSync(new URL("../../bench/data/ladder-16.inp", import.meta.url), "utf8"), 2000, "out");
const large = timed(grid(), 15);
console.log(`EPANET engine ${workspace.version} in epanet-js: ladder of 16 ${(1000 * ladder.cold).toFixed(1)} us from cold ` +
  `(${ladder.iterations} steps), ${(1000 * ladder.warm).toFixed(1)} us warm; planar grid ${large.cold.toFixed(1)} ms (${large.iterations} steps)`);
if (process.argv[2])
  process.stdout.write(execFileSync(process.argv[2], ["--benchmark_filter=ladder_cold|ladder_warm|planar_grid$"], { stdio: ["ignore", "pipe", "ignore"] }));
