import {
  groupThousands,
  massIn,
  massUnit,
  minorDigits,
  moneyDigits,
  roomIn,
  roomUnit,
  type UnitSystem,
} from "../../graph-schema/index.ts";
import type { KitAnswer, KitLine } from "../contract/kit.contract.ts";
import {
  chanceWords,
  groupDigits,
  massWords,
  meanWords,
  moneyWords,
  plural,
  sureWords,
} from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";

const amount = (minor: number, currency: string): string =>
  moneyWords(minor, currency).slice(0, -(currency.length + 1));

const gearOf = (line: KitLine): string =>
  [...new Set(line.reasons.map((reason) => reason.gear))].join(", ");

/** Evidence in a word; the share that rests on assumption stands beside it where it is not all or nothing. */
function evidenceWords(line: KitLine): string {
  if (line.assumedShare <= 0) return line.evidence;
  if (line.assumedShare >= 0.995) return "assumed";
  return `${Math.max(1, Math.round(100 * line.assumedShare))} % assumed`;
}

function lineColumns(currency: string): readonly TableColumn<KitLine>[] {
  return [
    {
      header: "Part",
      align: "left",
      flexible: true,
      cell: (line) => `${line.maker} ${line.partNumber} ${line.description}`,
    },
    {
      header: "Aboard",
      align: "right",
      dispensable: 1,
      cell: (line) => String(line.aboard),
    },
    { header: "Carry", align: "right", cell: (line) => String(line.carry) },
    { header: "Buy", align: "right", cell: (line) => String(line.buy) },
    {
      header: "Mean need",
      align: "right",
      dispensable: 4,
      cell: (line) => meanWords(line.meanDemand),
    },
    {
      header: "Short with none",
      align: "right",
      dispensable: 3,
      cell: (line) => chanceWords(line.shortWithNone),
    },
    { header: "Short with kit", align: "right", cell: (line) => chanceWords(line.shortWithKit) },
    {
      header: `Cost ${currency}`,
      align: "right",
      cell: (line) => {
        if (line.buy === 0 || line.lineCost === undefined) return "";
        return `${amount(line.lineCost.minor, line.lineCost.currency)}${line.priceAssumed ? " ?" : ""}`;
      },
    },
    { header: "Evidence", align: "left", cell: evidenceWords },
    { header: "For", align: "left", flexible: true, dispensable: 2, cell: gearOf },
  ];
}

function showTiers(answer: KitAnswer): void {
  sayHeading("How sure, by tier (chance of not running short)");
  say(
    renderTable(
      [
        { header: "Tier", align: "left", cell: (tier) => tier.tier },
        { header: "Parts", align: "right", cell: (tier) => groupDigits(tier.parts) },
        { header: "Target", align: "right", cell: (tier) => String(tier.target) },
        { header: "With none", align: "right", cell: (tier) => sureWords(tier.withNone) },
        { header: "With aboard", align: "right", cell: (tier) => sureWords(tier.withAboard) },
        { header: "With kit", align: "right", cell: (tier) => sureWords(tier.withKit) },
        {
          header: `Cost ${answer.currency}`,
          align: "right",
          cell: (tier) =>
            answer.objective === "cost" ? amount(tier.cost, answer.currency) : String(tier.cost),
        },
      ],
      answer.tiers,
      terminalWidth(),
    ),
  );
}

/** A chance, or what it lies between where the order of events decides. */
function betweenWords(atLeast: number, atMost: number): string {
  const [low, high] = [sureWords(atLeast), sureWords(atMost)];
  return low === high ? low : `${low} to ${high}`;
}

function showFunctions({ functions }: KitAnswer): void {
  if (functions.length === 0) return;
  sayHeading("What must work");
  say(
    renderTable(
      [
        { header: "Function", align: "left", flexible: true, cell: (row) => row.function.name },
        { header: "Tier", align: "left", cell: (row) => row.tier },
        { header: "Need", align: "right", cell: (row) => `${row.need} of ${row.fitted}` },
        {
          header: "With aboard",
          align: "right",
          cell: (row) => betweenWords(row.withAboard, row.withAboardAtMost),
        },
        {
          header: "With kit",
          align: "right",
          cell: (row) => betweenWords(row.withKit, row.withKitAtMost),
        },
        { header: "Reckoned by", align: "left", flexible: true, cell: (row) => row.method },
      ],
      functions,
      terminalWidth(),
    ),
  );
}

function showUnsparable({ unsparable, withoutEvidence }: KitAnswer): void {
  if (unsparable.length > 0) {
    sayHeading("Risks that no spare covers at sea");
    say(
      renderTable(
        [
          { header: "Part", align: "left", cell: (row) => row.part.name },
          { header: "What", align: "left", flexible: true, cell: (row) => row.description },
          { header: "Tier", align: "left", cell: (row) => row.tier },
          { header: "Chance", align: "right", cell: (row) => chanceWords(row.chance) },
          { header: "For", align: "left", flexible: true, cell: (row) => row.gear },
          {
            header: "Stops",
            align: "left",
            flexible: true,
            dispensable: 1,
            cell: (row) => row.stopsFunctions.map((f) => f.name).join(", "),
          },
        ],
        unsparable,
        terminalWidth(),
      ),
    );
  }
  if (withoutEvidence.length > 0) {
    const some = withoutEvidence.slice(0, 5).map((row) => `${row.part.name} ${row.description}`);
    const more = withoutEvidence.length > some.length ? ", …" : "";
    say();
    sayWords(
      `Not provided for, since nothing is known of how often they fail: ${plural(withoutEvidence.length, "part")} (${some.join(", ")}${more}).`,
    );
  }
}

/** What one lost piece would stop, and which gear can give pieces. */
function showWeakPoints({ singlePoints, donors }: KitAnswer, inFull: boolean): void {
  if (singlePoints.length > 0) {
    sayHeading("One piece lost stops it");
    const shown = inFull ? singlePoints : singlePoints.slice(0, 10);
    for (const point of shown) sayWords(`– ${point.words}`, "  ", "  ");
    const more = singlePoints.length - shown.length;
    if (more > 0) sayWords(`${groupDigits(more)} more, less likely: --why lists all.`);
  }
  if (donors.length > 0 && inFull) {
    sayHeading("What can give parts");
    for (const donor of donors) sayWords(`– ${donor.words}`, "  ", "  ");
  }
}

/** A kit on the terminal: the answer, its list, how sure each tier is, what no spare covers, the cautions. */
export function showKit(answer: KitAnswer, withReasons: boolean): void {
  const { crossing, vessel, total, currency } = answer;
  showComparison(answer.comparison, answer.units);
  sayWords(answer.sentence);
  sayWords(
    `${vessel.name}, ${crossing.name}: departs ${crossing.departs}, ${crossing.daysExpected} days expected, ${crossing.daysLongest} longest; dates judged at ${crossing.usableUntil}.`,
  );
  const carried = answer.lines.filter((line) => line.carry > 0 || line.buy > 0);
  sayHeading("The kit");
  for (const { tier } of answer.tiers) {
    const lines = carried.filter((line) => line.tier === tier);
    if (lines.length === 0) continue;
    say(`${tier} tier`);
    say(renderTable(lineColumns(currency), lines, terminalWidth()));
    say();
  }
  const idle = answer.lines.length - carried.length;
  if (idle > 0) sayWords(`${plural(idle, "further part")} looked at; none of them needs carrying.`);
  sayWords(
    `In all ${plural(total.carryPieces, "piece")} of ${plural(total.distinctParts, "part")} to carry, ${groupDigits(total.buyPieces)} to buy for ${moneyWords(total.cost.minor, total.cost.currency)}, ${massWords(total.massKg, answer.units)}${total.massUnknownPieces > 0 ? ` and ${plural(total.massUnknownPieces, "piece")} of unknown mass` : ""}${total.priceAssumedPieces > 0 ? `; ${plural(total.priceAssumedPieces, "price")} assumed (?)` : ""}. ${proofWords(answer)}`,
  );
  showPurchases(answer);
  showTiers(answer);
  showFunctions(answer);
  showUnsparable(answer);
  showWeakPoints(answer, withReasons);
  if (withReasons) {
    sayHeading("Why");
    for (const line of carried) {
      sayWords(`${line.partNumber}: ${line.words}`, "  ");
      for (const reason of line.reasons) sayWords(`– ${reason.words}`, "    ", "  ");
    }
  }
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}

function proofWords({ status, sale }: KitAnswer): string {
  const by = `(by ${sale.method})`;
  if (sale.shortfalls.length > 0) return "The caps are below what the safety tier needs.";
  if (status === "infeasible") return "A target is out of reach with any number of spares.";
  if (sale.aim === "most") {
    return status === "optimal"
      ? `Proven the most the caps allow ${by}.`
      : `Stopped by the time limit; the log of the chance is at most ${sale.gap.toPrecision(2)} below the most the caps allow ${by}.`;
  }
  if (status === "optimal") return `Proven least for these targets ${by}.`;
  const share = sale.value > 0 ? (100 * sale.gap) / sale.value : 0;
  return `Stopped by the time limit within ${share.toFixed(1)} % of the least ${by}.`;
}

type Cap = KitAnswer["sale"]["caps"][number];

const capUnit = ({ unit }: Cap, units: UnitSystem): string =>
  unit === "kg" ? massUnit(units) : unit === "litre" ? roomUnit(units) : unit;

function capAmount({ unit }: Cap, amount: number, units: UnitSystem): string {
  if (unit === "kg") return groupThousands(String(Number(massIn(amount, units).toFixed(3))));
  if (unit === "litre") return groupThousands(String(Number(roomIn(amount, units).toFixed(3))));
  return moneyDigits(Math.round(amount * 10 ** minorDigits(unit)), unit);
}

/** What to buy as it is sold, where that differs from single pieces, and how the caps are filled. */
function showPurchases({ purchases, sale, units }: KitAnswer): void {
  const apart = purchases.filter(
    ({ kind, leastUnits, lockers }) => kind !== "piece" || leastUnits > 1 || lockers.length > 0,
  );
  if (apart.length > 0) {
    sayHeading("Bought otherwise than by the piece, or stowed as asked");
    for (const { words, lockers } of apart) {
      const places = lockers.map(({ locker, units }) => `${units} in ${locker}`).join(", ");
      sayWords(`– ${words}${places === "" ? "" : ` Stow ${places}.`}`, "  ", "  ");
    }
  }
  if (sale.caps.length > 0) {
    sayHeading("Caps");
    say(
      renderTable(
        [
          { header: "Cap", align: "left", cell: (cap) => cap.locker ?? cap.what },
          { header: "Unit", align: "left", cell: (cap) => capUnit(cap, units) },
          { header: "Allowed", align: "right", cell: (cap) => capAmount(cap, cap.allowed, units) },
          { header: "Used", align: "right", cell: (cap) => capAmount(cap, cap.used, units) },
          {
            header: "Size unknown",
            align: "right",
            cell: (cap) => (cap.unknownPieces === 0 ? "" : plural(cap.unknownPieces, "piece")),
          },
        ],
        sale.caps,
        terminalWidth(),
      ),
    );
  }
  if (sale.shortfalls.length > 0) {
    sayHeading("What stands in the way");
    for (const { words, inTheWay } of sale.shortfalls) {
      sayWords(words, "  ");
      for (const { words: taker } of inTheWay) sayWords(`– ${taker}`, "    ", "  ");
    }
  }
}
