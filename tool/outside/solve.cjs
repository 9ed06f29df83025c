// Solves one MiniZinc model with Chuffed, in plain Node: the worker of the
// package is run in this process, with the three words of a browser's worker
// that it wants. The model comes on standard input; what the solver says goes
// to standard output, one JSON message a line. A limit in milliseconds may be
// given. One process solves one model.
"use strict";
const fs = require("node:fs");
const path = require("node:path");
const vm = require("node:vm");

const dist = path.join(__dirname, "node_modules", "minizinc", "dist");
const limit = process.argv[2] || "60000";
const model = fs.readFileSync(0, "utf8");

let listener, sent = false;
globalThis.addEventListener = (_, f) => { listener = f; };
globalThis.postMessage = (m) => {
  if (m.type !== "ready") {
    process.stdout.write(JSON.stringify(m) + "\n");
    return;
  }
  if (sent) return; // it says so again after a solve, which is the only one here
  sent = true;
  const args = ["--solver", "chuffed", "-f", "--time-limit", limit, "--output-mode", "json", "model.mzn"];
  listener({ data: { jsonStream: true, files: { "model.mzn": model }, args } });
};
const file = path.join(dist, "minizinc-worker.js");
const run = vm.compileFunction(fs.readFileSync(file, "utf8"), ["require", "__filename", "__dirname"], { filename: file });
run(require, file, dist);
listener({ data: { wasmURL: path.join(dist, "minizinc.wasm"), dataURL: path.join(dist, "minizinc.data") } });
