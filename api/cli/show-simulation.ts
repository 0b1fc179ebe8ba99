import type { SimulationAnswer } from "../contract/simulation.contract.ts";
import { estimateWords } from "../plans/simulate/simulation-words.ts";
import { groupDigits, meanWords } from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable } from "./table.ts";

const mostParts = 15;
const computed = (value: number): string => value.toFixed(4);

function showTiers({ tiers }: SimulationAnswer): void {
  sayHeading("No part runs short, by tier (share of crossings, 95 % interval)");
  say(
    renderTable(
      [
        { header: "Tier", align: "left", cell: (row) => row.tier },
        { header: "Parts", align: "right", cell: (row) => groupDigits(row.parts) },
        {
          header: "With aboard",
          align: "left",
          cell: (row) => estimateWords(row.withAboard.simulated),
        },
        { header: "Computed", align: "right", cell: (row) => computed(row.withAboard.computed) },
        { header: "With kit", align: "left", cell: (row) => estimateWords(row.withKit.simulated) },
        { header: "Computed", align: "right", cell: (row) => computed(row.withKit.computed) },
      ],
      tiers,
      terminalWidth(),
    ),
  );
}

function showFunctions({ functions }: SimulationAnswer): void {
  if (functions.length === 0) return;
  sayHeading("What keeps working (share of crossings, with the kit)");
  say(
    renderTable(
      [
        { header: "Function", align: "left", flexible: true, cell: (row) => row.function.name },
        { header: "Tier", align: "left", dispensable: 1, cell: (row) => row.tier },
        { header: "Need", align: "right", cell: (row) => `${row.need} of ${row.fitted}` },
        { header: "As lived", align: "left", cell: (row) => estimateWords(row.withKit.asLived) },
        {
          header: "As counted",
          align: "left",
          dispensable: 2,
          cell: (row) => estimateWords(row.withKit.asCounted),
        },
        { header: "Computed", align: "right", cell: (row) => computed(row.withKit.computed) },
      ],
      functions,
      terminalWidth(),
    ),
  );
}

function showParts({ parts }: SimulationAnswer): void {
  const short = parts.filter((row) => row.shortWithKit.simulated.value > 0);
  if (short.length === 0) return;
  const more = short.length > mostParts ? `, the first ${mostParts} of ${short.length}` : "";
  sayHeading(`What runs short with the kit${more}`);
  say(
    renderTable(
      [
        { header: "Part", align: "left", cell: (row) => row.part.name },
        { header: "What", align: "left", flexible: true, cell: (row) => row.description },
        {
          header: "Short",
          align: "left",
          cell: (row) => estimateWords(row.shortWithKit.simulated),
        },
        { header: "Computed", align: "right", cell: (row) => computed(row.shortWithKit.computed) },
      ],
      short.slice(0, mostParts),
      terminalWidth(),
    ),
  );
}

/** A simulation on the terminal: the answer, its tables, where the two models differ, the cautions. */
export function showSimulation(answer: SimulationAnswer): void {
  showComparison(answer.comparison);
  sayWords(answer.sentence);
  showTiers(answer);
  showFunctions(answer);
  showParts(answer);
  sayHeading("In a mean crossing, as lived");
  const { aboard, kit } = answer;
  sayWords(
    `${meanWords(answer.demandsPerCrossing)} pieces are asked for. With what is aboard ${meanWords(aboard.itemsStopped)} items stop and ${meanWords(aboard.piecesRobbed)} pieces are taken from stopped or spared gear; with the kit ${meanWords(kit.itemsStopped)} and ${meanWords(kit.piecesRobbed)}. Seed ${answer.seed}.`,
  );
  sayHeading("Where simulation and formulas differ by design");
  for (const difference of answer.differences) sayWords(`• ${difference}`, "  ");
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
