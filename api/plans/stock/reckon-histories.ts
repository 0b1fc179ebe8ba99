import type { LinkRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { HistoryChange, ReckonAnswer } from "../../contract/stock.contract.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { askKnownGraph } from "../ask-known-graph.ts";
import { recordById } from "../records/find-record.ts";
import { type Writer, writeChange } from "../records/write-record.ts";
import { meanWords, plural } from "../words.ts";
import { historyStep } from "./own-history.ts";

const mostShown = 200;

/**
 * Brings every own history that uses are written down for forward to today, so that the time in which nothing was used
 * counts too (see own-history.ts). One change, which can be undone.
 */
export async function reckonHistories(
  store: GraphStore,
  today: string,
  writer: Writer,
): Promise<ReckonAnswer> {
  const changes: ProposedChange[] = [];
  const told: HistoryChange[] = [];
  for (const line of await linesToReckon(store, today)) {
    const ends = {
      model: await recordById(store, line.from),
      part: await recordById(store, line.to),
    };
    const step = await historyStep(store, line, ends, today, 0);
    changes.push(step.change);
    told.push(step.told);
  }
  const yearsAdded = told.reduce((sum, { years, yearsBefore }) => sum + years - yearsBefore, 0);
  const { sequence } = await writeChange(
    store,
    changes,
    writer,
    `Own histories of ${plural(told.length, "line")} reckoned to ${today}`,
  );
  return {
    sentence:
      sequence === null
        ? "No own history needs bringing forward: none is kept by uses written down, or all were reckoned today."
        : `The own histories of ${plural(told.length, "line")} are reckoned to ${today}: ${meanWords(yearsAdded)} piece-years without use are added.`,
    sequence,
    lines: told.length,
    yearsAdded,
    shown: told.slice(0, mostShown),
  };
}

const linesToReckon = (store: GraphStore, today: string): Promise<readonly LinkRecord[]> =>
  askKnownGraph(store, (known) =>
    [...known.links("USES").values()].filter(
      ({ properties: { historyUntil: until } }) => typeof until === "string" && until < today,
    ),
  );
