import type { MinimumsAnswer } from "../contract/minimums.contract.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Check = MinimumsAnswer["lists"][number]["checks"][number];

const figure = (check: Check, value: number): string =>
  check.status === "not applicable" || check.status === "to be judged" ? "" : String(value);

const firstFew = (names: readonly string[]): string =>
  names.length <= 4
    ? names.join("; ")
    : `${names.slice(0, 3).join("; ")} and ${names.length - 3} more`;

const columns: readonly TableColumn<Check>[] = [
  { header: "Where", align: "left", cell: (check) => check.place },
  { header: "What it asks", align: "left", flexible: true, cell: (check) => check.asks },
  { header: "Required", align: "right", cell: (check) => figure(check, check.required) },
  { header: "Aboard", align: "right", cell: (check) => figure(check, check.aboard) },
  { header: "With kit", align: "right", cell: (check) => figure(check, check.withKit) },
  { header: "State", align: "left", cell: (check) => check.status },
  {
    header: "Why",
    align: "left",
    flexible: true,
    cell: (check) =>
      check.unlisted.length === 0
        ? check.words
        : `${check.words} Aboard but on no parts list of this gear: ${firstFew(check.unlisted.map(({ part }) => part))}.`,
  },
];

/** Minimum lists on the terminal: the answer, then each list with its rules, then what it does not say. */
export function showMinimums(answer: MinimumsAnswer): void {
  sayWords(answer.sentence);
  for (const list of answer.lists) {
    sayHeading(list.title);
    if (list.applies !== "") sayWords(`${list.applies}.`.replace(/\.\.$/, "."));
    say(renderTable(columns, list.checks, terminalWidth()));
    const sources = [...new Set(list.checks.map(({ source }) => source))];
    sayWords(`Source: ${sources.join("; ")}.`);
  }
  showComparison(answer.comparison);
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
