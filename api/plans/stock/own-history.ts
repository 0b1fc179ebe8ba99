import type { NodeId } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { HistoryChange } from "../../contract/stock.contract.ts";
import { dayOfIso, isoOfDay } from "../../scoring/aboard/calendar.ts";
import { daysPerYear } from "../../scoring/provision/passage.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { referenceTo } from "../records/record-names.ts";
import { meanWords, plural } from "../words.ts";

/** Entries of the journal looked through for the day a line came into the graph. */
const mostEntries = 2000;

export interface HistoryStep {
  readonly change: ProposedChange;
  readonly told: HistoryChange;
}

const numberOf = (value: unknown): number => (typeof value === "number" ? value : 0);

/**
 * The own history of one parts-list line brought forward to a day, with the pieces used added.
 *
 *   τ' = τ + q Σ_i max(0, day - max(begin, fitted_i)) / 365.25      k' = k + used
 *
 * τ: piece-years in service over which k pieces were used (METHODS section 1); q: pieces in one item; i: every fitted
 * item of the model, on all vessels, since they share the rate; fitted_i: the day it was fitted, if known. `begin` is
 * the day up to which the history was last reckoned; for a history without one, and for a line without history,
 * the day given, else the day the figures (or the line) came into the graph: from then on uses are written down.
 *
 * Time without use counts as much as use: without it the rate would be learned from failures alone and come out too
 * high. Items taken off or added in between count as they are today; gear is taken to have been in service throughout.
 *
 * @param since ISO day; ignored where the history says up to when it was reckoned
 */
export async function historyStep(
  store: GraphStore,
  line: LinkRecord,
  ends: { readonly model: NodeRecord; readonly part: NodeRecord },
  day: string,
  used: number,
  since?: string,
): Promise<HistoryStep> {
  const { properties } = line;
  const begin = String(
    properties["historyUntil"] ?? since ?? (await dayOfFigures(store, line)) ?? day,
  );
  const quantity = Math.max(1, numberOf(properties["quantity"]));
  const fitted = await fittedDays(store, ends.model.id);
  const today = dayOfIso(day);
  const from = dayOfIso(begin);
  const days = fitted.reduce<number>(
    (sum, fittedOn) => sum + Math.max(0, today - Math.max(from, fittedOn ?? from)),
    0,
  );
  const usedBefore = numberOf(properties["usedCount"]);
  const yearsBefore = numberOf(properties["usedOverYears"]);
  const years = Number((yearsBefore + (quantity * days) / daysPerYear).toFixed(6));
  const until = today > from ? day : begin;
  const pieces = quantity * fitted.length;
  const told: HistoryChange = {
    model: referenceTo(ends.model),
    part: referenceTo(ends.part),
    usedBefore,
    used: usedBefore + used,
    yearsBefore,
    years,
    from: begin,
    until,
    pieces,
    words: `${usedBefore + used} used over ${meanWords(years)} piece-years (${plural(pieces, "piece")} in service; time since ${begin} added)`,
  };
  return {
    told,
    change: {
      kind: "update-link",
      type: "USES",
      from: line.from,
      to: line.to,
      basedOn: line.version,
      set: {
        usedCount: usedBefore + used,
        usedOverYears: years,
        historyUntil: isoOfDay(dayOfIso(until)),
      },
    },
  };
}

/** When each fitted item of a model was fitted; undefined where nobody says. */
async function fittedDays(
  store: GraphStore,
  model: NodeId,
): Promise<readonly (number | undefined)[]> {
  const days: (number | undefined)[] = [];
  for (const { from } of await store.linksTo(model, "IS_MODEL")) {
    const fittedOn = (await store.node(from))?.properties["fittedOn"];
    days.push(typeof fittedOn === "string" ? dayOfIso(fittedOn) : undefined);
  }
  return days;
}

/** The day the history's figures were last written, else the day the line came into the graph. */
async function dayOfFigures(store: GraphStore, line: LinkRecord): Promise<string | undefined> {
  const entries = await store.journal({ about: line.to, limit: mostEntries });
  const own = entries.filter(
    ({ subject }) =>
      subject.kind === "link" &&
      subject.type === "USES" &&
      subject.from === line.from &&
      subject.to === line.to,
  );
  const figure = (properties: (typeof own)[number]["before"]) =>
    `${String(properties?.["usedCount"])} ${String(properties?.["usedOverYears"])}`;
  const written = own.find(
    ({ kind, before, after }) => kind === "created" || figure(before) !== figure(after),
  );
  return written?.at.slice(0, 10);
}
