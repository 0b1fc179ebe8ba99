import type { NodeLabel } from "../../../graph-schema/index.ts";
import { keyPiece } from "../../../graph-schema/index.ts";
import type { NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { UseRequest } from "../../contract/stock.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { recordById } from "../records/find-record.ts";
import { ownName } from "../records/record-names.ts";

interface ServiceDone {
  readonly task: NodeRecord | undefined;
  readonly changes: readonly ProposedChange[];
}

/**
 * What follows from a use in a planned service: the service of the item counts as done today, at the hours it has run;
 * and the item's hours, where they are given. Errors: `input-invalid`, `not-found`.
 */
export async function serviceDone(
  store: GraphStore,
  request: UseRequest,
  item: NodeRecord | undefined,
  today: string,
): Promise<ServiceDone> {
  const { hours, service } = request;
  if (hours === undefined && service === undefined) return { task: undefined, changes: [] };
  if (item === undefined) {
    throw new Problem(
      "input-invalid",
      "A service, and hours run, belong to a fitted item; none was named. Say which item it was for.",
      { places: [{ pointer: "/for", detail: "which item" }] },
    );
  }
  const changes: ProposedChange[] = [];
  if (hours !== undefined) {
    const set = { hoursRun: hours };
    changes.push({ kind: "update-node", id: item.id, basedOn: item.version, set });
  }
  if (service === undefined) return { task: undefined, changes };
  const task = await taskOf(store, item, service);
  const known = (await store.linksFrom(item.id, "SERVICED")).find(({ to }) => to === task.id);
  const run = hours ?? item.properties["hoursRun"];
  const set = { lastDone: today, ...(typeof run === "number" ? { lastDoneHours: run } : {}) };
  changes.push(
    known === undefined
      ? { kind: "create-link", type: "SERVICED", from: item.id, to: task.id, properties: set }
      : {
          kind: "update-link",
          type: "SERVICED",
          from: item.id,
          to: task.id,
          basedOn: known.version,
          set,
        },
  );
  return { task, changes };
}

/** The service of the item's model that a word means. */
async function taskOf(store: GraphStore, item: NodeRecord, word: string): Promise<NodeRecord> {
  const model = (await store.linksFrom(item.id, "IS_MODEL"))[0]?.to;
  const tasks: NodeRecord[] = [];
  if (model !== undefined) {
    for (const { from } of await store.linksTo(model, "SERVICE_OF")) {
      tasks.push(await recordById(store, from));
    }
  }
  const wanted = keyPiece(word);
  const found =
    tasks.find(({ id }) => id === word.trim()) ??
    tasks.find((task) => keyPiece(ownName(task)) === wanted);
  const begins = tasks.filter((task) => keyPiece(ownName(task)).startsWith(wanted));
  const only = begins.length === 1 ? begins[0] : undefined;
  if (found !== undefined || only !== undefined) return found ?? (only as NodeRecord);
  const names = tasks.map((task) => `"${ownName(task)}"`).join(", ");
  throw new Problem(
    "not-found",
    `No service of ${ownName(item)} is called "${word.slice(0, 80)}". ${names === "" ? `Its model has no ${"ServiceTask" satisfies NodeLabel} yet.` : `There are: ${names}.`}`,
  );
}
