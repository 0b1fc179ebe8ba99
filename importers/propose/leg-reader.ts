import { OrderReader } from "./order-reader.ts";
import { absent, type RowRefusal } from "./row-options.ts";

/** A leg as the graph keeps it, in the document of its crossing. */
interface Leg {
  readonly from?: string;
  readonly to: string;
  readonly days: number;
  readonly longestDays: number;
}

interface LegRow {
  readonly row: number;
  readonly number: number | undefined;
  readonly leg: Leg;
}

interface Voyage {
  readonly legs: LegRow[];
  /** The first row that spoils the whole, and why; "" for a fault of its own cells. */
  spoilt: { readonly row: number; readonly refusal: RowRefusal | undefined } | undefined;
}

/** Reads the legs of crossings. The legs of one crossing are taken together or not at all: a gap would shorten it. */
export class LegReader extends OrderReader {
  #voyages: Map<number, Voyage> | undefined;
  readonly #taken = new Map<number, Voyage>();

  protected readLegRow(row: number): RowRefusal | undefined {
    const field = this.field.crossing;
    const code = this.code("crossing", row);
    if (field === undefined || code === 0) {
      return this.missing("crossing", "A leg must name its crossing");
    }
    const voyage = this.#all().get(field.pieceNumber(code));
    if (voyage?.spoilt !== undefined) {
      const { spoilt } = voyage;
      if (spoilt.row === row && spoilt.refusal) return spoilt.refusal;
      return {
        code: "value-invalid",
        column: field.header,
        rule: `The legs of a crossing are taken together or not at all; line ${this.options.lineOf(spoilt.row)} of this one cannot be`,
        value: field.text(code),
        remedy: "Correct that line and import all legs of the crossing again.",
      };
    }
    const crossing = this.crossings.node(field.piece(code), field.text(code), []);
    this.mention(this.crossings, crossing);
    this.keepRowWith(this.crossings, crossing);
    if (this.code("legLongest", row) === 0) this.remark("leg-longest-presumed", row);
    if (voyage !== undefined) this.pending.push(() => this.#taken.set(crossing, voyage));
    return undefined;
  }

  /** Every crossing of the file with its legs, by the number of its name; read once, before the first row is taken. */
  #all(): Map<number, Voyage> {
    if (this.#voyages) return this.#voyages;
    const voyages = new Map<number, Voyage>();
    const field = this.field.crossing;
    for (let row = 0; row < this.options.rowCount; row += 1) {
      const name = field?.pieceNumber(field.code(row)) ?? 0;
      if (name === 0) continue;
      const voyage = voyages.get(name) ?? { legs: [], spoilt: undefined };
      voyages.set(name, voyage);
      const leg = this.options.isFaulty(row) ? undefined : this.#leg(row);
      if (leg !== undefined && "leg" in leg) voyage.legs.push(leg);
      else voyage.spoilt ??= { row, refusal: leg };
    }
    for (const voyage of voyages.values()) voyage.spoilt ??= this.#arrange(voyage.legs);
    this.#voyages = voyages;
    return voyages;
  }

  #leg(row: number): LegRow | RowRefusal {
    const { legFrom, legTo, legDays, legLongest, legNumber } = this.field;
    const to = this.code("legTo", row);
    if (to === 0 || legTo === undefined) return this.missing("legTo", "A leg must name its port");
    const days = Number(legDays?.text(this.code("legDays", row)) ?? 0);
    if (this.code("legDays", row) === 0) return this.missing("legDays", "A leg must have its days");
    const longestCode = this.code("legLongest", row);
    const longest = longestCode === 0 ? days : Number(legLongest?.text(longestCode));
    if (days <= 0 || longest < days) {
      return {
        code: "number-out-of-range",
        column: days <= 0 ? legDays?.header : legLongest?.header,
        rule: "A leg must take some days, and its longest case no fewer than it is expected to take",
        value: days <= 0 ? String(days) : `${longest} (expected ${days})`,
        remedy: "Correct the days of the leg.",
      };
    }
    const number = this.code("legNumber", row);
    const from = this.code("legFrom", row);
    return {
      row,
      number: number === 0 ? undefined : Number(legNumber?.text(number)),
      leg: {
        ...(from === 0 || legFrom === undefined ? {} : { from: legFrom.text(from) }),
        to: legTo.text(to),
        days,
        longestDays: longest,
      },
    };
  }

  /** Puts legs in the order of their numbers, each once; what is wrong if that cannot be. */
  #arrange(legs: LegRow[]): Voyage["spoilt"] {
    const numbered = legs.filter(({ number }) => number !== undefined).length;
    if (numbered === 0) return undefined;
    const refuse = (row: number, rule: string, value: string): Voyage["spoilt"] => ({
      row,
      refusal: {
        code: "value-invalid",
        column: this.headerOf("legNumber"),
        rule,
        value,
        remedy: "Number the legs 1, 2, 3 and so on, each once.",
      },
    });
    const bare = legs.find(({ number }) => number === undefined);
    if (bare) return refuse(bare.row, "All legs of a crossing are numbered, or none is", "(empty)");
    legs.sort((a, b) => (a.number ?? 0) - (b.number ?? 0) || a.row - b.row);
    for (let at = legs.length - 1; at > 0; at -= 1) {
      const [before, leg] = [legs[at - 1], legs[at]];
      if (!before || !leg || before.number !== leg.number) continue;
      if (JSON.stringify(before.leg) !== JSON.stringify(leg.leg)) {
        const line = this.options.lineOf(before.row);
        const rule = `Each leg has a number of its own; line ${line} has this one too`;
        return refuse(leg.row, rule, String(leg.number));
      }
      legs.splice(at, 1);
    }
    return undefined;
  }

  /** Says of each crossing what its legs are, and, where it is new, how many days they add up to. */
  protected finishLegs(): void {
    for (const [crossing, { legs }] of this.#taken) {
      const record = this.crossings.records[crossing];
      this.crossings.sayAside(
        crossing,
        "legs",
        legs.map(({ leg }) => leg),
      );
      let sum = 0;
      let longest = 0;
      let port: string | undefined;
      for (const { row, leg } of legs) {
        if (port !== undefined && leg.from !== undefined && plain(leg.from) !== plain(port)) {
          this.remark("leg-ports-apart", row);
        }
        port = leg.to;
        sum += leg.days;
        longest += leg.longestDays;
      }
      const row = legs[0]?.row ?? absent;
      const days = { daysExpected: Math.ceil(sum), daysLongest: Math.ceil(longest) };
      if (record === undefined) {
        for (const [property, value] of Object.entries(days)) {
          this.crossings.sayAside(crossing, property, value);
        }
        this.remark("days-from-legs", row);
      } else if (
        Object.entries(days).some(([property, value]) =>
          differs(record.properties[property], value),
        )
      ) {
        this.remark("leg-days-differ", row);
      }
    }
  }
}

const plain = (port: string): string => port.trim().toLowerCase();
const differs = (stated: unknown, sum: number): boolean => stated !== undefined && stated !== sum;
