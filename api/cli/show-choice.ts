import type { ChoiceCandidate, ChooseAnswer } from "../contract/choose.contract.ts";
import { groupDigits, moneyWords, sureWords } from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";

const amount = (money: { minor: number; currency: string } | null): string =>
  money === null
    ? "unknown"
    : moneyWords(money.minor, money.currency).slice(0, -(money.currency.length + 1));

const signed = (value: number | null): string =>
  value === null ? "unknown" : value > 0 ? `+${groupDigits(value)}` : groupDigits(value);

const moneyColumns = (currency: string): readonly TableColumn<ChoiceCandidate>[] => [
  { header: "", align: "right", cell: ({ rank }) => (rank === null ? "–" : String(rank)) },
  { header: "Make", align: "left", flexible: true, cell: ({ model }) => model.name },
  {
    header: `Price each ${currency}`,
    align: "right",
    cell: ({ price, priceQuoted }) =>
      price === null && priceQuoted !== null
        ? moneyWords(priceQuoted.minor, priceQuoted.currency)
        : amount(price),
  },
  { header: "Kit", align: "right", cell: ({ kit }) => amount(kit?.cost ?? null) },
  {
    header: "Over today's kit",
    align: "right",
    cell: ({ kit }) => (kit?.extra == null ? "unknown" : amount(kit.extra)),
  },
  { header: "Boat", align: "right", cell: ({ boat }) => amount(boat) },
  {
    header: "Break-even against the next",
    align: "right",
    dispensable: 1,
    cell: ({ breakEven }) => amount(breakEven[0]?.price ?? null),
  },
];

const spareColumns: readonly TableColumn<ChoiceCandidate>[] = [
  { header: "Make", align: "left", flexible: true, cell: ({ model }) => model.name },
  { header: "New parts", align: "right", cell: ({ newParts }) => signed(newParts) },
  { header: "Kits", align: "right", cell: ({ newKits }) => signed(newKits) },
  { header: "Suppliers", align: "right", cell: ({ newSuppliers }) => signed(newSuppliers) },
  {
    header: "Kit kg",
    align: "right",
    cell: ({ kit }) => (kit === null ? "unknown" : kit.massKg.toFixed(1)),
  },
  {
    header: "Kit l",
    align: "right",
    dispensable: 2,
    cell: ({ kit }) =>
      kit === null || kit.volumeUnknownPieces === kit.pieces
        ? "unknown"
        : kit.volumeLitres.toFixed(1),
  },
  {
    header: "Slowest days",
    align: "right",
    cell: ({ worstLeadTimeDays }) =>
      worstLeadTimeDays === null ? "unknown" : String(worstLeadTimeDays),
  },
  {
    header: "One source",
    align: "right",
    cell: ({ singleSourceParts, unsoldParts, partsListed }) =>
      partsListed === 0
        ? "unknown"
        : unsoldParts === 0
          ? String(singleSourceParts)
          : `${singleSourceParts} (+${unsoldParts} none)`,
  },
  {
    header: "Donor aboard",
    align: "right",
    cell: ({ donorChance }) =>
      donorChance === null ? "unknown" : `${Math.floor(donorChance * 100)} %`,
  },
  {
    header: "Lasts, same money",
    align: "right",
    cell: ({ functions, kit }) =>
      functions.length === 0
        ? kit === null
          ? "unknown"
          : "no function"
        : sureWords(Math.min(...functions.map(({ atEqualSpend }) => atEqualSpend))),
  },
  {
    header: "No evidence",
    align: "right",
    dispensable: 1,
    cell: ({ partsListed, partsWithoutEvidence }) =>
      partsListed === 0 ? "no list" : `${partsWithoutEvidence} of ${partsListed}`,
  },
];

/** Prints a choice: the verdict, the makes side by side, those refused and why. */
export function showChoice(answer: ChooseAnswer): void {
  sayWords(answer.verdict);
  showComparison(answer.comparison);
  const { position } = answer;
  const width = terminalWidth();
  say();
  sayWords(
    `${answer.vessel.name}, ${answer.crossing.name}: departs ${answer.crossing.departs}, ${answer.crossing.daysLongest} days at longest. Today's kit: ${answer.before.kit === null ? "unknown" : moneyWords(answer.before.kit.minor, answer.before.kit.currency)}; ${groupDigits(answer.before.parts)} different parts, ${answer.before.kits} spares kits, ${answer.before.suppliers} suppliers at least.`,
  );
  for (const list of answer.lists) sayWords(list.sentence);
  for (const need of position.needs) {
    sayWords(
      `Needs ${need.need} ${need.rule === "equal" ? "of exactly" : "at least"} ${need.value} ${need.unit} (${need.from}).`,
      "  ",
    );
  }
  if (answer.candidates.length > 0) {
    sayHeading("Money, at the same protection");
    say(renderTable(moneyColumns(answer.currency), answer.candidates, width));
    sayWords(
      "Boat: price of all units plus the whole kit. Break-even: what one unit may cost before its boat is dearer than the cheapest other one.",
    );
    sayHeading("Spares");
    say(renderTable(spareColumns, answer.candidates, width));
    sayWords(
      "Lasts, same money: chance that the function it serves lasts when the money of today's kit is spent on the surest spares.",
    );
    sayHeading("Each in words");
    for (const { model, words } of answer.candidates) sayWords(`${model.name}: ${words}`, "  ");
  }
  if (answer.rejected.length > 0) {
    sayHeading("Refused");
    for (const { model, reasons } of answer.rejected) {
      sayWords(`${model.name}: ${reasons.join("; ")}.`, "  ");
    }
  }
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
