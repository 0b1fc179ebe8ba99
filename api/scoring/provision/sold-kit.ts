import type { SaleAnswer, SaleProblem } from "../packs/sale-problem.ts";
import { solvePacks } from "../packs/solve-packs.ts";
import type { SaleOutcome } from "../packs/solve-sale.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { saleOf } from "./bind-sale.ts";
import type { SoldKit } from "./kit-sale.ts";
import type { Passage } from "./passage.ts";
import { answerByRow } from "./provision-groups.ts";
import { withAnswer, withPurchases } from "./sold-as.ts";
import { byPacks, singleUnits } from "./units-by-part.ts";
import { type KitSettings, solveGroups, type VesselKit, vesselKit } from "./vessel-kit.ts";

/** Returns the kit of one vessel for one crossing as it is really sold: vessel-kit.ts, then `soldKit`. */
export function vesselKitAsSold(
  snapshot: Snapshot,
  vessel: number,
  passage: Passage,
  settings: KitSettings,
): SoldKit {
  // Packs and service kits are proven anew, so the kit by the piece need not be, unless it stands (soldKit sees to it).
  const isFree = settings.rule === "kit" && Object.keys(settings.caps ?? {}).length === 0;
  const first = isFree ? { ...settings, shouldStop: () => true } : settings;
  return soldKit(snapshot, settings, vesselKit(snapshot, vessel, passage, first));
}

/**
 * Returns the kit as it is really sold: packs, least orders and service kits weighed against single pieces.
 *
 * Where every class asked for is cheapest by the single piece and no service kit holds any, the kit stands as the
 * fast exact method found it. Else solve-packs.ts sizes it anew. With caps, or where that method gives up, the kit
 * returned is the best known so far and `isSettled` is false: `settledKit` takes a solver's answer.
 *
 * @param kit the kit by the piece; one whose proof was not waited for will do, it is proven where it stands
 */
export function soldKit(snapshot: Snapshot, settings: KitSettings, kit: VesselKit): SoldKit {
  const { offers, problem } = saleOf(snapshot, settings, kit);
  if (settings.rule !== "kit") return withPurchases(kit, problem, offers, byPacks(kit, problem));
  const isCapped = Object.keys(problem.caps).length > 0;
  const units = isCapped ? undefined : singleUnits(kit, problem);
  if (units !== undefined) {
    const proven = kit.answer.status === "time-limited" ? provenKit(kit, settings) : kit;
    const bought = proven === kit ? units : (singleUnits(proven, problem) ?? units);
    const answer = { units: bought, method: "steps" as const, repaired: false };
    return withPurchases(proven, problem, offers, answer);
  }
  const free = { ...problem, caps: {}, aim: "least" as const };
  const solved = solvePacks(free, settings.shouldStop);
  // Where service kits are too entangled: the same without them stands until a solver has answered.
  const answer = solved ?? withoutKitsBought(free, settings.shouldStop);
  if (answer === undefined) {
    return withPurchases(kit, problem, offers, byPacks(kit, problem), false);
  }
  const isWhole = kit.groups.every((group) => group.steps?.complete !== false);
  const isProven = solved?.status === "optimal" && isWhole;
  const sold = withAnswer(kit, problem, offers, answer, isProven ? "optimal" : "unproven");
  return isCapped || solved?.status !== "optimal"
    ? { ...sold, sale: { ...sold.sale, isSettled: false } }
    : sold;
}

/** Returns the kit bought as a solver answered. */
export function settledKit(kit: SoldKit, outcome: SaleOutcome): SoldKit {
  const { problem, offers } = kit.sale;
  const { answer } = outcome;
  const sold = withAnswer(kit, problem, offers, answer, answer.status, !outcome.isFallback);
  const isCapped = Object.keys(problem.caps).length > 0;
  return {
    ...sold,
    sale: {
      ...sold.sale,
      isSettled: true,
      ...(isCapped
        ? {
            outcome: {
              isSafe: outcome.isSafe,
              isFallback: outcome.isFallback,
              needs: outcome.needs,
              aim: outcome.isFallback || !outcome.isSafe ? ("most" as const) : problem.aim,
              value: answer.value,
              bound: answer.bound,
            },
          }
        : {}),
    },
  };
}

/** The kit by the piece, its proof taken up again. */
function provenKit(kit: VesselKit, settings: KitSettings): VesselKit {
  const answer = answerByRow(solveGroups(kit.groups, settings), kit.groups, kit.rows.length);
  return {
    ...kit,
    answer,
    rows: kit.rows.map((row, at) => ({ ...row, buy: answer.buys[at] ?? 0 })),
  };
}

/** The best purchase without service kits; it bounds nothing, since kits may be cheaper. */
function withoutKitsBought(
  problem: SaleProblem,
  shouldStop: (() => boolean) | undefined,
): SaleAnswer | undefined {
  const found = solvePacks({ ...problem, offers: withoutKits(problem) }, shouldStop);
  return found === undefined
    ? undefined
    : { ...found, status: "unproven", bound: 0, gap: found.value };
}

const withoutKits = ({ offers }: SaleProblem): SaleProblem["offers"] =>
  offers.map((offer) => (offer.contents.length > 1 ? { ...offer, contents: [], most: 0 } : offer));
