import type { KitAnswer } from "../../api/contract/kit.contract.ts";
import type { WhatIf } from "../../api/contract/what-if.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";

/** What the kit itself says, asked from scratch, of one vessel on the demo's crossing with gear replaced. */
export function kitAnew(
  store: GraphStore,
  vessel: string,
  replace: NonNullable<WhatIf["replace"]>,
  currency = "EUR",
): Promise<KitAnswer> {
  const whatIf = replace.length === 0 ? {} : { whatIf: { replace } };
  return planKit(store, { vessel, currency, ...whatIf }, "2026-11-25");
}
