import type { DoubtAnswer } from "../contract/doubt.contract.ts";
import { changeWords } from "../plans/doubt/doubt-words.ts";
import { groupDigits, meanWords, moneyWords, plural, sureWords } from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable } from "./table.ts";

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const range = ({ low, high }: { low: number; high: number }): string =>
  meanWords(low) === meanWords(high) ? "" : `${meanWords(low)} to ${meanWords(high)}`;

/** Doubt on the terminal: the answer, what rests on guesses, each tier, rough passages, the rates that matter. */
export function showDoubt(answer: DoubtAnswer): void {
  sayWords(answer.sentence);
  const { assumed } = answer;
  sayHeading("What rests on assumed rates");
  sayWords(
    `Of ${plural(answer.kit.pieces, "piece", "pieces")} to buy (${moneyWords(answer.kit.money.minor, answer.kit.money.currency)}), ${percent(assumed.pieces)} of the pieces and ${percent(assumed.money)} of what is spent. With every assumed rate halved the kit is ${groupDigits(assumed.buyPieces.low)} pieces (${changeWords(assumed.cost.low - answer.kit.cost, answer)}), with every one doubled ${groupDigits(assumed.buyPieces.high)} (${changeWords(assumed.cost.high - answer.kit.cost, answer)}).`,
  );
  say();
  say(
    renderTable(
      [
        { header: "Tier", align: "left", cell: (row) => row.tier },
        { header: "Asked", align: "right", cell: (row) => String(row.target) },
        { header: "With kit", align: "right", cell: (row) => sureWords(row.withKit) },
        {
          header: "If guesses are off twofold",
          align: "left",
          cell: (row) =>
            `${sureWords(row.withKitRange.low)} to ${sureWords(row.withKitRange.high)}`,
        },
        {
          header: "On passages of uneven roughness",
          align: "right",
          cell: (row) => sureWords(row.roughWithKit),
        },
        {
          header: "Of demand assumed",
          align: "right",
          cell: (row) => percent(row.assumedDemand),
        },
        { header: "Of risk assumed", align: "right", cell: (row) => percent(row.assumedRisk) },
      ],
      answer.tiers.filter((tier) => tier.parts > 0),
      terminalWidth(),
    ),
  );
  sayHeading("Rough passages");
  sayWords(`${answer.rough.words} Basis: shape ${answer.rough.shape}, ${answer.rough.basis}.`);
  sayHeading("Rates that would change the kit, halved or doubled");
  const rates = answer.rates.filter(
    ({ halved, doubled }) => halved.changes.length + doubled.changes.length > 0,
  );
  if (rates.length === 0) sayWords("None by itself.");
  else {
    say(
      renderTable(
        [
          {
            header: "Part",
            align: "left",
            flexible: true,
            cell: (row) => [row.description, row.part.name].filter((t) => t !== "").join(", "),
          },
          { header: "Gear", align: "left", flexible: true, cell: (row) => row.gear },
          { header: "Evidence", align: "left", cell: (row) => row.evidence },
          { header: "Expected", align: "right", cell: (row) => meanWords(row.expected) },
          { header: "Likely", align: "right", dispensable: 1, cell: (row) => range(row.likely) },
          {
            header: "Halved",
            align: "right",
            cell: (row) => (row.halved.feasible ? changeWords(row.halved.cost, answer) : "beyond"),
          },
          {
            header: "Doubled",
            align: "right",
            cell: (row) =>
              row.doubled.feasible ? changeWords(row.doubled.cost, answer) : "beyond",
          },
        ],
        rates,
        terminalWidth(),
      ),
    );
    if (answer.ratesThatMatter > rates.length) {
      sayWords(
        `${groupDigits(answer.ratesThatMatter - rates.length)} more change it less: --most lists them.`,
      );
    }
  }
  showComparison(answer.comparison);
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
