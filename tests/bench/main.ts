import { chooseFigures } from "./choose.bench-figures.ts";
import { coverFigures } from "./cover.bench-figures.ts";
import type { Figure } from "./figure.ts";
import { importFigures } from "./import.bench-figures.ts";
import { kitFigures } from "./kit.bench-figures.ts";
import { screenFigures } from "./screen.bench-figures.ts";
import { simulateFigures } from "./simulate.bench-figures.ts";
import { standardiseFigures } from "./standardise.bench-figures.ts";
import { storeFigures } from "./store.bench-figures.ts";

/**
 * `node tests/bench/main.ts [NAME] [--json]`: measures and prints the figures of one bench, or of all.
 *
 * With --json one document per bench: { bench, figures: [{ name, value, unit, target, meets }] }.
 * Exit code 1 if a figure misses its target, 2 if the name is unknown.
 */
const benches: Readonly<Record<string, () => Promise<Figure[]>>> = {
  choose: () => chooseFigures(),
  standardise: () => standardiseFigures(),
  cover: () => coverFigures(),
  kit: () => kitFigures(),
  simulate: () => simulateFigures(),
  import: () => importFigures(),
  screen: () => screenFigures(),
  store: () => storeFigures(),
};

const words = process.argv.slice(2);
const asJson = words.includes("--json");
const names = words.filter((word) => !word.startsWith("--"));
const unknown = names.filter((name) => !Object.hasOwn(benches, name));

if (unknown.length > 0) {
  console.error(
    `No bench is called ${unknown.join(", ")}; there are: ${Object.keys(benches).join(", ")}.`,
  );
  process.exitCode = 2;
} else {
  for (const name of names.length > 0 ? names : Object.keys(benches)) {
    const figures = (await benches[name]?.()) ?? [];
    if (asJson) console.log(JSON.stringify({ bench: name, figures }));
    else printTable(name, figures);
    if (figures.some((figure) => !figure.meets)) process.exitCode = 1;
  }
}

function printTable(name: string, figures: readonly Figure[]): void {
  console.log(name);
  for (const figure of figures) {
    const value = Number(figure.value.toPrecision(4));
    const verdict = figure.meets ? "meets" : "MISSES";
    console.log(`  ${verdict}  ${figure.name}: ${value} ${figure.unit} (target ${figure.target})`);
  }
}
