import type { KitRequest } from "../../contract/kit.contract.ts";
import type { TierTargets } from "../../scoring/kit/kit-problem.ts";
import type { KitSettings } from "../../scoring/provision/vessel-kit.ts";

/** Sufficiency asked of each tier when the planner says nothing. */
const defaultTargets = { safety: 0.99, passage: 0.95, comfort: 0.8 } as const;

/** The targets of a request, by tier: its own, else the usual ones. */
export function tierTargets(
  request: Pick<KitRequest, "targets">,
): readonly [number, number, number] {
  const {
    safety = defaultTargets.safety,
    passage = defaultTargets.passage,
    comfort = defaultTargets.comfort,
  } = request.targets ?? {};
  return [safety, passage, comfort];
}

type Asked = Pick<
  KitRequest,
  | "targets"
  | "objective"
  | "rule"
  | "robbing"
  | "rates"
  | "ignoreAboard"
  | "confirmedOnly"
  | "currency"
>;

/** What of a request decides demand, stock and prices, with the usual answers where it says nothing. */
export const stockSettings = (
  request: Omit<Asked, "targets" | "objective" | "rule">,
): Omit<KitSettings, "targets" | "objective" | "rule"> & {
  readonly robbing: boolean;
  readonly rates: Readonly<Record<string, number>>;
} => ({
  robbing: request.robbing ?? true,
  rates: request.rates ?? {},
  ignoreAboard: request.ignoreAboard ?? false,
  confirmedOnly: request.confirmedOnly ?? false,
  ...(request.currency === undefined ? {} : { currency: request.currency }),
});

/** The kit a request means, with the usual answers where it says nothing; caps are read by kit-limits.ts. */
export const kitSettings = (request: Asked): KitSettings & { readonly targets: TierTargets } => ({
  targets: tierTargets(request),
  objective: request.objective ?? "cost",
  rule: request.rule ?? "kit",
  ...stockSettings(request),
});
