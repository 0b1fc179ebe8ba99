import { keepRows } from "./keep-rows.ts";
import type { Adjacency, Snapshot } from "./snapshot.ts";

/**
 * Returns one vessel's picture out of the whole fleet's: its gear, functions, lockers and lots, the models it has, the
 * parts those use or services take or that lie aboard with their alternates, successors, contents and service kits, who offers
 * them, and the crossings it sails. The same as a store's `snapshot(vessel)`. O(size of the snapshot).
 */
export function vesselPicture(snapshot: Snapshot, vessel: number): Snapshot {
  const { items, functions, lockers, lots, services, models } = snapshot;
  const model = marks(models.id.length);
  items.model.forEach((row, item) => {
    if (items.vessel[item] === vessel) model.add(row);
  });
  const service = marks(services.id.length);
  services.model.forEach((row, at) => {
    if (model.has(row)) service.add(at);
  });
  const part = marks(snapshot.parts.id.length);
  addTargets(part, snapshot.uses, model);
  addTargets(part, snapshot.consumes, service);
  lots.part.forEach((row, lot) => {
    if (lots.vessel[lot] === vessel) part.add(row);
  });
  spread(part, snapshot);
  const maker = marks(snapshot.makers.id.length);
  models.maker.forEach((row, at) => {
    if (model.has(at)) maker.add(row);
  });
  snapshot.parts.maker.forEach((row, at) => {
    if (part.has(at)) maker.add(row);
  });
  const supplier = sources(snapshot.offers, (row) => part.has(row));
  const crossing = sources(snapshot.sailedBy, (row) => row === vessel);
  return keepRows(snapshot, {
    vessels: (row) => row === vessel,
    makers: maker.has,
    functions: (row) => functions.vessel[row] === vessel,
    models: model.has,
    items: (row) => items.vessel[row] === vessel,
    parts: part.has,
    services: service.has,
    lots: (row) => lots.vessel[row] === vessel,
    lockers: (row) => lockers.vessel[row] === vessel,
    suppliers: supplier.has,
    crossings: crossing.has,
  });
}

/** A set of rows. */
interface Marks {
  readonly has: (row: number) => boolean;
  readonly add: (row: number) => boolean;
}

function marks(count: number): Marks {
  const marked = new Uint8Array(count);
  return {
    has: (row) => marked[row] === 1,
    /** Whether the row is new. */
    add: (row) => {
      if (row < 0 || marked[row] === 1) return false;
      marked[row] = 1;
      return true;
    },
  };
}

function addTargets(into: Marks, { start, target }: Adjacency, from: Marks): void {
  for (let row = 0; row + 1 < start.length; row++) {
    if (!from.has(row)) continue;
    for (let entry = start[row] ?? 0; entry < (start[row + 1] ?? 0); entry++) {
      into.add(target[entry] ?? -1);
    }
  }
}

/**
 * Alternates both ways, successors of the old and contents of kits, as far as they lead; then the service kits that
 * hold any of these, however deep, and whatever else is in them.
 */
function spread(part: Marks, { interchange, supersession, contains }: Snapshot): void {
  const asFarAs = (...ways: readonly (readonly [from: Int32Array, to: Int32Array])[]): void => {
    for (let grew = true; grew; ) {
      grew = false;
      for (const [from, to] of ways) {
        from.forEach((row, pair) => {
          if (part.has(row) && part.add(to[pair] ?? -1)) grew = true;
        });
      }
    }
  };
  asFarAs(
    [interchange.a, interchange.b],
    [interchange.b, interchange.a],
    [supersession.older, supersession.newer],
    [contains.kit, contains.part],
  );
  asFarAs([contains.part, contains.kit]);
  asFarAs([contains.kit, contains.part]);
}

function sources({ start, target }: Adjacency, reaches: (row: number) => boolean): Marks {
  const found = marks(Math.max(0, start.length - 1));
  for (let row = 0; row + 1 < start.length; row++) {
    if (target.subarray(start[row], start[row + 1]).some(reaches)) found.add(row);
  }
  return found;
}
