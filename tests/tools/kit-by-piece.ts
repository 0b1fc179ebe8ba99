import type { WhatIf } from "../../api/contract/what-if.contract.ts";
import { kitSettings } from "../../api/plans/kit/kit-settings.ts";
import { imaginedStore } from "../../api/plans/what-if/imagined-store.ts";
import { dayOfIso } from "../../api/scoring/aboard/calendar.ts";
import { type VesselKit, vesselKit } from "../../api/scoring/provision/vessel-kit.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";

/** The demo's crossing, as its list has it. */
const departs = "2027-01-10";
const passage = { departsDay: dayOfIso(departs), daysExpected: 16, daysLongest: 20, marginDays: 0 };

/** One vessel's least kit by the piece on the demo's crossing, from scratch, of the graph as it is imagined. */
export async function kitByPiece(
  store: GraphStore,
  vessel: string,
  replace: WhatIf["replace"],
  currency = "EUR",
): Promise<VesselKit> {
  const imagined = await imaginedStore(store, { replace }, vessel, departs);
  const whole = await store.snapshot();
  const id = whole.vessels.id[whole.vessels.name.indexOf(vessel)];
  if (id === undefined) throw new Error(`${vessel} is a vessel of the demo`);
  return vesselKit(await imagined.store.snapshot(id), 0, passage, kitSettings({ currency }));
}
