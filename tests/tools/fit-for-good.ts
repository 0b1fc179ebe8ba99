import type { GraphStore } from "../../api/store/graph-store.ts";

/** Writes for good what `replace` imagines: the item is new on that day and of another model, its services done then. */
export async function fitForGood(
  to: GraphStore,
  item: string,
  model: string,
  fittedOn: string,
): Promise<void> {
  const items = await to.list("FittedItem", 0, 1000);
  const node = items.find((one) => one.id === item);
  const [link] = node === undefined ? [] : await to.linksFrom(node.id, "IS_MODEL");
  if (node === undefined || link === undefined) throw new Error("the item has a model");
  const models = await to.list("Model", 0, 1000);
  const next = models.find((one) => one.id === model);
  if (next === undefined) throw new Error("the model is there");
  const done = await to.linksFrom(node.id, "SERVICED");
  const tasks = await to.linksTo(next.id, "SERVICE_OF");
  await to.apply(
    {
      changes: [
        {
          kind: "delete-link",
          type: "IS_MODEL",
          from: node.id,
          to: link.to,
          basedOn: link.version,
        },
        { kind: "create-link", type: "IS_MODEL", from: node.id, to: next.id, properties: {} },
        {
          kind: "update-node",
          id: node.id,
          basedOn: node.version,
          set: { hoursRun: 0, fittedOn },
        },
        ...done.map((one) => ({
          kind: "delete-link" as const,
          type: "SERVICED" as const,
          from: node.id,
          to: one.to,
          basedOn: one.version,
        })),
        ...tasks.map((task) => ({
          kind: "create-link" as const,
          type: "SERVICED" as const,
          from: node.id,
          to: task.from,
          properties: { lastDone: fittedOn, lastDoneHours: 0 },
        })),
      ],
    },
    { who: "test", at: "2026-11-25T00:00:00.000Z" },
  );
}
