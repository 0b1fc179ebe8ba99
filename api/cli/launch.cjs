#!/usr/bin/env node
"use strict";
// Plain old JavaScript on purpose: this file must start on any Node, find a new enough one, and hand over to it.
const childProcess = require("node:child_process");
const fs = require("node:fs");
const path = require("node:path");

const wanted = 24;
const root = path.join(__dirname, "..", "..");
const isCheckout = fs.existsSync(path.join(root, "tsconfig.json"));
const built = path.join(root, "dist", "api", "cli", "main.js");
const source = path.join(root, "api", "cli", "main.ts");

function fail(text) {
  process.stderr.write(`${text}\n`);
  process.exit(1);
}

const entry = !isCheckout && fs.existsSync(built) ? built : source;
if (!fs.existsSync(entry)) {
  fail(`The program's files are incomplete: ${entry} is missing. Install it again.`);
}

function nodeToUse() {
  if (Number(process.versions.node.split(".")[0]) >= wanted) return process.execPath;
  try {
    const packaged = path.join(path.dirname(require.resolve("node/package.json")), "bin");
    const names = ["node", "node.exe"];
    for (let i = 0; i < names.length; i++) {
      if (fs.existsSync(path.join(packaged, names[i]))) return path.join(packaged, names[i]);
    }
  } catch (_) {
    // told below
  }
  fail(
    `This program needs Node ${wanted} or newer; this is Node ${process.versions.node}, and the npm package "node" that brings a newer one is not installed. Run \`npm install\` again (with install scripts allowed), or install Node ${wanted}.`,
  );
}

if (nodeToUse() === process.execPath) {
  // node:sqlite and type stripping announce themselves as experimental on some releases; nobody at sea needs that.
  process.removeAllListeners("warning");
  process.on("warning", (warning) => {
    if (warning.name !== "ExperimentalWarning") {
      process.stderr.write(`${warning.name}: ${warning.message}\n`);
    }
  });
  if (isCheckout) {
    // Source must be stripped of types at every start; the stripped code is kept beside the checkout's database.
    require("node:module").enableCompileCache(path.join(root, ".sparewright", "code"));
  }
  import(require("node:url").pathToFileURL(entry).href).catch((error) => {
    fail(`The program could not start: ${error?.message}`);
  });
} else {
  const child = childProcess.spawn(nodeToUse(), [__filename].concat(process.argv.slice(2)), {
    stdio: "inherit",
  });
  ["SIGINT", "SIGTERM", "SIGHUP"].forEach((signal) => {
    process.on(signal, () => child.kill(signal));
  });
  child.on("error", (error) => fail(`The newer Node could not be started: ${error.message}`));
  child.on("exit", (code, signal) => {
    process.exitCode = signal === null ? code : 1;
  });
}
