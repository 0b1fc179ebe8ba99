import type { Snapshot } from "../snapshot/snapshot.ts";

/** A piece of work on one fitted item: a service, or a new piece of a wearing part. */
export type Work =
  | { readonly kind: "service"; readonly item: number; readonly service: number }
  | { readonly kind: "replacement"; readonly item: number; readonly part: number };

/** Stands for hours nobody knows: beyond any life, so that the ages of other pieces stay unknown. */
const unknownHours = 1e9;

/**
 * Returns the snapshot as it is once some work has been done on a day, nothing else changed; a what-if, never written.
 *
 * A service is noted as done on that day at the item's hours. A replacement is noted as a service that puts in that part
 * alone and never falls due. An item whose hours are not known is given hours beyond any life: other pieces stay of
 * unknown age, and what has been done counts from then. O(serviced + consumed lines).
 */
export function withWorkDone(snapshot: Snapshot, work: readonly Work[], day: number): Snapshot {
  const { services, consumes, serviced, items } = snapshot;
  const hoursRun = items.hoursRun.slice();
  for (const { item } of work) {
    if (Number.isNaN(hoursRun[item] ?? Number.NaN)) hoursRun[item] = unknownHours;
  }
  const replaced = [
    ...new Set(work.flatMap((one) => (one.kind === "replacement" ? [one.part] : []))),
  ];
  const known = services.id.length;
  const longer = (column: Float64Array, fill: number, count: number): Float64Array =>
    Float64Array.from([...column, ...Array.from({ length: count }, () => fill)]);
  const extra = replaced.length;
  const done = work.map((one) => ({
    item: one.item,
    service: one.kind === "service" ? one.service : known + replaced.indexOf(one.part),
  }));
  const start = new Int32Array(serviced.start.length);
  const target: number[] = [];
  const lastDoneDay: number[] = [];
  const lastDoneHours: number[] = [];
  for (let item = 0; item + 1 < start.length; item++) {
    const own = done.filter((one) => one.item === item);
    for (let entry = serviced.start[item] ?? 0; entry < (serviced.start[item + 1] ?? 0); entry++) {
      const service = serviced.target[entry] ?? -1;
      if (own.some((one) => one.service === service)) continue;
      target.push(service);
      lastDoneDay.push(serviced.lastDoneDay[entry] ?? Number.NaN);
      lastDoneHours.push(serviced.lastDoneHours[entry] ?? Number.NaN);
    }
    for (const { service } of own) {
      target.push(service);
      lastDoneDay.push(day);
      lastDoneHours.push(hoursRun[item] ?? Number.NaN);
    }
    start[item + 1] = target.length;
  }
  const lines = consumes.target.length;
  return {
    ...snapshot,
    items: { ...items, hoursRun },
    services: {
      id: [...services.id, ...replaced.flatMap((part) => snapshot.parts.id[part] ?? [])],
      name: [...services.name, ...replaced.map(() => "Replacement")],
      // Of no model: it is planned for nobody.
      model: Int32Array.from([...services.model, ...replaced.map(() => -1)]),
      intervalHours: longer(services.intervalHours, Number.NaN, extra),
      intervalMonths: longer(services.intervalMonths, Number.NaN, extra),
      intervalOperations: longer(services.intervalOperations, Number.NaN, extra),
    },
    consumes: {
      start: Int32Array.from([...consumes.start, ...replaced.map((_, at) => lines + at + 1)]),
      target: Int32Array.from([...consumes.target, ...replaced]),
      quantity: longer(consumes.quantity, 1, extra),
      lossChance: longer(consumes.lossChance, Number.NaN, extra),
    },
    serviced: {
      start,
      target: Int32Array.from(target),
      lastDoneDay: Float64Array.from(lastDoneDay),
      lastDoneHours: Float64Array.from(lastDoneHours),
    },
  };
}
