import type { PartClasses } from "../classes/part-classes.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/** A port of call, with how long the vessel lies there. */
export interface PortCall {
  readonly port: string;
  /** "" where not known. */
  readonly country: string;
  readonly stayDays: number;
}

/** What one port call supplies. */
export interface PortSupply {
  /** Part classes that can be had within the stay. */
  readonly classes: ReadonlySet<number>;
  /** Supplier rows that can deliver something. */
  readonly suppliers: readonly number[];
}

/** Port and country names as they compare: case, accents and outer blanks don't tell two apart. */
export const placeKey = (name: string): string =>
  name.normalize("NFD").replace(/\p{M}/gu, "").trim().toLowerCase();

/** The country of a port: the one given, else that of any supplier there; "" where none says. */
export function countryOfPort(snapshot: Snapshot, port: string, given: string | undefined): string {
  if (given !== undefined) return given;
  const at = snapshot.suppliers.port.findIndex((name) => placeKey(name) === placeKey(port));
  return at < 0 ? "" : (snapshot.suppliers.country[at] ?? "");
}

/**
 * Returns what can be had at a port call: offers of suppliers in that port whose lead time, where stated, is within the
 * stay; offers of suppliers elsewhere in that country whose stated lead time is; with `fromAbroad` those of any other
 * supplier whose stated lead time is. Ordered on arrival. A lead time nobody states is taken as from stock in port, as too long elsewhere.
 * O(offers).
 */
export function portSupply(
  snapshot: Snapshot,
  classes: PartClasses,
  call: PortCall,
  fromAbroad: boolean,
): PortSupply {
  const { suppliers, offers } = snapshot;
  const found = new Set<number>();
  const able: number[] = [];
  for (let supplier = 0; supplier < suppliers.id.length; supplier++) {
    const isHere = placeKey(suppliers.port[supplier] ?? "") === placeKey(call.port);
    const isNear =
      call.country !== "" && placeKey(suppliers.country[supplier] ?? "") === placeKey(call.country);
    if (!isHere && !isNear && !fromAbroad) continue;
    let delivers = false;
    for (let o = offers.start[supplier] ?? 0; o < (offers.start[supplier + 1] ?? 0); o++) {
      const lead = offers.leadTimeDays[o] ?? Number.NaN;
      if (Number.isNaN(lead) ? !isHere : lead > call.stayDays) continue;
      const partClass = classes.classOf[offers.target[o] ?? -1] ?? -1;
      if (partClass < 0) continue;
      found.add(partClass);
      delivers = true;
    }
    if (delivers) able.push(supplier);
  }
  return { classes: found, suppliers: able };
}
