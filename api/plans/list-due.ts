import type { DueAnswer, DueRequest } from "../contract/stock.contract.ts";
import { dayOfIso, isoOfDay } from "../scoring/aboard/calendar.ts";
import { partClasses } from "../scoring/classes/part-classes.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { nodeByWord } from "./choose-scope.ts";
import { dueSideBySide } from "./due/compare-due.ts";
import { dueLots } from "./due/due-lots.ts";
import { dueServices } from "./due/due-services.ts";
import { dueSpan } from "./due/due-span.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { plural } from "./words.ts";

/**
 * What falls due until a day: lots out of date, undated, unfit or falling out of date, and services by hours or months
 * with what each uses up and whether it is aboard. With `whatIf` the graph is as imagined, what is due beside what is
 * due of the graph as it is. Errors: `not-found` (vessel); with `whatIf` also `input-invalid`, `key-taken`.
 */
export async function listDue(
  store: GraphStore,
  request: DueRequest,
  today: string,
): Promise<DueAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return dueAsItIs(store, asked, today);
  const { departs, until } = await dueSpan(store, asked, dayOfIso(today));
  const fittedOn = isoOfDay(Math.min(departs, until));
  return besideBefore(
    store,
    whatIf,
    (from) => dueAsItIs(from, asked, today),
    dueSideBySide(fittedOn),
  );
}

async function dueAsItIs(
  store: GraphStore,
  request: DueRequest,
  today: string,
): Promise<DueAnswer> {
  const day = dayOfIso(today);
  const node =
    request.vessel === undefined ? undefined : await nodeByWord(store, "Vessel", request.vessel);
  const { departs, until, notices } = await dueSpan(store, request, day);
  const snapshot = await store.snapshot();
  const row = node === undefined ? undefined : snapshot.vessels.id.indexOf(node.id);
  const rows = row === undefined ? [...snapshot.vessels.id.keys()] : [row];
  const lots = dueLots(snapshot, row, day, until);
  const services = dueServices(snapshot, partClasses(snapshot), rows, day, departs, until);
  const out = lots.filter(({ state }) => state !== "falls due").length;
  const short = services.filter(({ ready }) => !ready).length;
  const untilDay = isoOfDay(until);
  return {
    ...(node === undefined
      ? {}
      : { vessel: { id: node.id, name: String(node.properties["name"]) } }),
    today,
    until: untilDay,
    sentence: `Until ${untilDay}: ${plural(out, "lot")} ${out === 1 ? "does" : "do"} not count as aboard already, ${plural(lots.length - out, "more falls", "more fall")} out of date; ${plural(services.length, "service falls", "services fall")} due${services.length === 0 ? "" : `, ${short === 0 ? "all with what they use up aboard" : `${short} of them short of parts`}`}.`,
    lots,
    services,
    notices,
    cautions: [...cautions],
  };
}
