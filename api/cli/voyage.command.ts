import type { Command } from "commander";
import { type VoyageAnswer, voyageRequest } from "../contract/voyage.contract.ts";
import { planVoyage } from "../plans/plan-voyage.ts";
import { readRequest } from "../plans/read-request.ts";
import { chanceWords, moneyWords, plural, sureWords } from "../plans/words.ts";
import { addKitOptions, type KitOptions, kitMembers, kitOptionName } from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { given, readNumber } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";
import { today } from "./today.ts";

interface VoyageOptions extends KitOptions {
  readonly from?: string;
  readonly leg?: readonly TypedLeg[];
  readonly stay?: number;
  readonly reliability?: number;
  readonly abroad?: boolean;
}

interface TypedLeg {
  readonly to: string;
  readonly days?: number;
  readonly longestDays?: number;
  readonly stayDays?: number;
  readonly country?: string;
}

export function addVoyageCommand(program: Command): void {
  addKitOptions(
    program
      .command("voyage")
      .description("the kit at each departure of a voyage of legs, given what its ports supply"),
  )
    .option("--from <port>", "port the voyage begins in")
    .option(
      "--leg <leg>",
      'a leg, repeated in order: "Praia,1.5,2,4,Cabo Verde" is its port, days, longest days, days of stay there, country; those of the crossing when absent',
      gatherLeg,
    )
    .option("--stay <days>", "days in a port of call where not said otherwise; 3", readNumber)
    .option("--reliability <chance>", "chance that a port delivers in time; .9", readNumber)
    .option("--abroad", "count suppliers of other countries whose lead time is within the stay")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<VoyageOptions>();
      const request = readRequest(
        voyageRequest,
        {
          ...kitMembers(options),
          ...given({
            from: options.from,
            legs: options.leg,
            stayDays: options.stay,
            reliability: options.reliability,
            fromAbroad: options.abroad,
          }),
        },
        "The voyage asked for",
        (pointer) =>
          pointer.startsWith("/legs")
            ? "--leg"
            : pointer === "/stayDays"
              ? "--stay"
              : pointer === "/fromAbroad"
                ? "--abroad"
                : kitOptionName(pointer),
      );
      await runPlan(options, openForReading, (store) => planVoyage(store, request, today()), show);
    });
}

/** "Praia, 1.5, 2, 4, Cabo Verde"; what is left empty is not said. */
function gatherLeg(text: string, before: readonly TypedLeg[] = []): readonly TypedLeg[] {
  const [to = "", days = "", longest = "", stay = "", ...country] = text
    .split(",")
    .map((piece) => piece.trim());
  const number = (piece: string): number | undefined =>
    piece === "" ? undefined : readNumber(piece);
  return [
    ...before,
    {
      to,
      ...given({
        days: number(days),
        longestDays: number(longest),
        stayDays: number(stay),
        country: country.length === 0 ? undefined : country.join(", "),
      }),
    },
  ];
}

type Line = VoyageAnswer["departures"][number]["lines"][number];

const columns: readonly TableColumn<Line>[] = [
  {
    header: "Part",
    align: "left",
    flexible: true,
    cell: (line) => `${line.part.name} ${line.description}`,
  },
  { header: "Tier", align: "left", dispensable: 2, cell: (line) => line.tier },
  { header: "Aboard", align: "right", dispensable: 1, cell: (line) => String(line.aboard) },
  { header: "Carry", align: "right", cell: (line) => String(line.carry) },
  { header: "Buy", align: "right", cell: (line) => String(line.buy) },
  { header: "Short with kit", align: "right", cell: (line) => chanceWords(line.shortWithKit) },
  { header: "Lasts to", align: "left", cell: (line) => line.lastsTo },
];

function show(answer: VoyageAnswer): void {
  sayWords(answer.sentence);
  answer.departures.forEach((departure, at) => {
    const { supplies, kit } = departure;
    sayHeading(`Leaving ${departure.from} for ${departure.to}, ${departure.departs}`);
    const sure = departure.tiers
      .filter((tier) => tier.parts > 0)
      .map((tier) => `${sureWords(tier.withKit)} ${tier.tier}`)
      .join(", ");
    const had =
      at === 0
        ? ""
        : ` ${supplies.suppliers.length === 0 ? "Nobody supplies here" : `${supplies.suppliers.join(", ")} can supply here`}, ${plural(supplies.parts, "part")} the gear asks for.`;
    sayWords(
      `${departure.daysExpected} days expected, ${departure.daysLongest} longest.${had} ${at === 0 ? "To buy" : "Levels to top up to"}: ${plural(kit.pieces, "piece")}, ${moneyWords(kit.cost.minor, kit.cost.currency)}${sure === "" ? "" : `; ${sure}`}.`,
    );
    const carried = departure.lines.filter((line) => line.carry > 0);
    if (carried.length > 0) say(renderTable(columns, carried, terminalWidth()));
  });
  if (answer.departures.length > 1) {
    const whole = answer.tiers
      .filter((_, at) => answer.departures.some((one) => (one.tiers[at]?.parts ?? 0) > 0))
      .map((tier) => `${sureWords(tier.whole)} ${tier.tier}`)
      .join(", ");
    if (whole !== "") sayWords(`Over the whole voyage: ${whole}.`);
  }
  showComparison(answer.comparison);
  sayHeading("Taken for granted");
  for (const assumption of answer.assumptions) sayWords(`– ${assumption}`, "", "  ");
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
