import type { StandardiseAnswer } from "../contract/standardise.contract.ts";
import { groupDigits, moneyWords } from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Opportunity = StandardiseAnswer["opportunities"][number];
interface Side {
  readonly figure: string;
  readonly before: string;
  readonly after: string;
}

const mostShown = 12;

const money = (amount: { minor: number; currency: string } | null): string =>
  amount === null ? "unknown" : moneyWords(amount.minor, amount.currency);

const sideColumns: readonly TableColumn<Side>[] = [
  { header: "Figure", align: "left", flexible: true, cell: ({ figure }) => figure },
  { header: "Before", align: "right", cell: ({ before }) => before },
  { header: "After", align: "right", cell: ({ after }) => after },
];

const opportunityColumns: readonly TableColumn<Opportunity>[] = [
  {
    header: "Kind",
    align: "left",
    flexible: true,
    dispensable: 2,
    cell: ({ category }) => category,
  },
  { header: "Replace", align: "left", flexible: true, cell: ({ replace }) => replace.name },
  { header: "By", align: "left", flexible: true, cell: ({ by }) => by.name },
  { header: "Items", align: "right", cell: ({ items }) => String(items) },
  { header: "Cost", align: "right", cell: ({ changeCost }) => money(changeCost) },
  { header: "Kits cost less by", align: "right", cell: ({ kitSaving }) => money(kitSaving) },
  {
    header: "Parts gone, new",
    align: "right",
    cell: ({ partsVanishing, partsAdded }) => `${partsVanishing}, ${partsAdded}`,
  },
  { header: "Kits gone", align: "right", dispensable: 1, cell: (one) => String(one.kitsVanishing) },
  {
    header: "Brings back",
    align: "right",
    cell: ({ savingPerCost }) =>
      savingPerCost === null ? "unknown" : `${Math.round(100 * savingPerCost)} %`,
  },
];

/** Prints what to keep and change, in what order, and what else there is. */
export function showStandard(answer: StandardiseAnswer): void {
  sayWords(answer.sentence);
  showComparison(answer.comparison);
  say();
  sayWords(answer.model.words);
  const { before, after } = answer;
  const width = terminalWidth();
  sayHeading("Before and after");
  const sides: Side[] = [
    { figure: "kits at the same protection", before: money(before.kit), after: money(after.kit) },
    { figure: "different spares kits", before: String(before.kits), after: String(after.kits) },
    {
      figure: "suppliers at least",
      before: String(before.suppliers),
      after: String(after.suppliers),
    },
    { figure: "charges a year", before: money(before.yearly), after: money(after.yearly) },
    {
      figure: `in all over ${answer.horizonYears} years`,
      before: money(before.total),
      after: money(after.total),
    },
  ];
  say(renderTable(sideColumns, sides, width));
  if (answer.sequence.length > 0) {
    sayHeading("In the order that pays best");
    answer.sequence.forEach(({ words }, at) => {
      sayWords(words, "   ", `${at + 1}. `);
    });
  }
  sayHeading("Against it");
  for (const words of answer.counterweight) sayWords(`• ${words}`, "  ");
  if (answer.opportunities.length > 0) {
    sayHeading("One make for another, kind by kind");
    say(renderTable(opportunityColumns, answer.opportunities.slice(0, mostShown), width));
    const more = answer.opportunities.length - mostShown;
    if (more > 0) say(`... and ${groupDigits(more)} more; --json lists them all.`);
    sayWords(
      `Brings back: what the change saves on kits and on ${answer.horizonYears} years of charges, over what it costs.`,
    );
  }
  if (answer.held.length > 0) {
    sayHeading("What stays as it is");
    for (const { reason } of answer.held) sayWords(`• ${reason}`, "  ");
  }
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
