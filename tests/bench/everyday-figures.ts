import { undoChange } from "../../api/plans/changes/undo-change.ts";
import { findSpares } from "../../api/plans/find-spares.ts";
import { editRecord } from "../../api/plans/records/edit-record.ts";
import { listRecords } from "../../api/plans/records/list-records.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import type { Figure } from "./figure.ts";

const today = "2026-11-25";
const writer = { who: "bench", at: "2026-11-25T00:00:00Z" };
const rounds = 7;

/** Texts as they are typed, those of words that stand in different records last. */
const texts = ["o", "oil", "oil f", "m", "maker", "maker 7", "locker 5", "S0-4", "oil maker 17"];

async function medianMs(work: () => Promise<unknown>): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return times.toSorted((a, b) => a - b)[Math.floor(rounds / 2)] ?? Number.NaN;
}

const atMost = (name: string, value: number, limit: number): Figure => ({
  name,
  value,
  unit: "ms",
  target: `≤ ${limit}`,
  meets: value <= limit,
});

/** Times of what is done every day, on a store with many parts. */
export async function everydayFigures(store: GraphStore, parts: string): Promise<Figure[]> {
  const [part] = await store.list("Part", 1000, 1);
  if (part === undefined) throw new Error("The bench needs parts.");
  let slowest = 0;
  for (const text of texts)
    slowest = Math.max(
      slowest,
      await medianMs(() => findSpares(store, { text, limit: 20 }, today)),
    );
  let massKg = 1;
  const edit = async () => {
    const basedOn = (await store.node(part.id))?.version ?? 0;
    massKg += 1;
    await editRecord(store, part.id, { basedOn, set: { massKg } }, writer);
  };
  const list = (more: object) => () =>
    listRecords(store, { label: "Part", limit: 100, offset: 50_000, ...more });
  return [
    atMost(`find among ${parts} parts as one types, slowest of ${texts.length} texts`, slowest, 50),
    atMost("a page of 100 in the middle of all parts", await medianMs(list({})), 50),
    atMost("the same, sorted by mass", await medianMs(list({ sort: "-massKg" })), 250),
    atMost("edit of a part", await medianMs(edit), 100),
    atMost("undo of an edit", await medianMs(() => undoChange(store, undefined, writer)), 100),
  ];
}
