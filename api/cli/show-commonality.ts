import type { CommonalityAnswer } from "../contract/commonality.contract.ts";
import { cautions } from "../plans/cautions.ts";
import { groupDigits } from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Indices = CommonalityAnswer["whole"];
interface Scope extends Indices {
  readonly scope: string;
}

const index = (value: number | null): string => (value === null ? "" : value.toFixed(2));

const columns: readonly TableColumn<Scope>[] = [
  { header: "Scope", align: "left", flexible: true, cell: (row) => row.scope },
  { header: "Items", align: "right", cell: (row) => groupDigits(row.items) },
  { header: "Models", align: "right", cell: (row) => groupDigits(row.models) },
  { header: "Parts", align: "right", cell: (row) => groupDigits(row.distinctParts) },
  { header: "In one only", align: "right", cell: (row) => groupDigits(row.usedByOneModelOnly) },
  { header: "Kits", align: "right", cell: (row) => groupDigits(row.distinctKits) },
  { header: "Maximal", align: "right", cell: (row) => groupDigits(row.maximalKits) },
  { header: "DCI", align: "right", cell: (row) => index(row.degreeOfCommonality) },
  { header: "TCCI", align: "right", cell: (row) => index(row.totalConstantCommonality) },
  { header: "CI", align: "right", cell: (row) => index(row.componentCommonality) },
];

const mostShown = 10;

/** Commonality on the terminal: the answer, the figures by scope, likest pairs, what a change would save. */
export function showCommonality(answer: CommonalityAnswer): void {
  showComparison(answer.comparison);
  sayWords(answer.sentence);
  sayHeading("Figures");
  const scopes: readonly Scope[] = [
    { scope: "all in scope", ...answer.whole },
    ...answer.vessels.map((row) => ({ scope: row.vessel.name, ...row })),
    ...answer.categories.map((row) => ({ scope: row.category, ...row })),
  ];
  say(renderTable(columns, scopes, terminalWidth()));
  sayWords(
    "Kits: different sets of sparable parts among fitted models; maximal: those contained in no other. DCI: degree of commonality (Collier 1981), mean uses per part; TCCI: the same between 0 and 1 (Wacker and Treleven 1986); CI: Martin and Ishii 1997, between 0 and 1.",
  );
  if (answer.likeness.length > 0) {
    sayHeading("Models most alike");
    say(
      renderTable(
        [
          { header: "Model", align: "left", flexible: true, cell: (pair) => pair.a.name },
          { header: "and", align: "left", flexible: true, cell: (pair) => pair.b.name },
          { header: "Shared parts", align: "right", cell: (pair) => groupDigits(pair.shared) },
          { header: "Likeness", align: "right", cell: (pair) => pair.jaccard.toFixed(2) },
        ],
        answer.likeness.slice(0, mostShown),
        terminalWidth(),
      ),
    );
  }
  if (answer.opportunities.length > 0) {
    sayHeading("What would vanish");
    for (const chance of answer.opportunities.slice(0, mostShown))
      sayWords(`• ${chance.words}`, "  ");
  }
  sayNotices(answer.notices);
  sayCautions(cautions);
}
