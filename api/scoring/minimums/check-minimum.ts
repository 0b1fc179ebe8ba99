import type { FittedUnit, MinimumRule, SpareClass } from "./minimum-rule.ts";
import { isPhrase, saysPhrase } from "./says-phrase.ts";
import { type Need, shareOut } from "./share-out.ts";

/** met: aboard already; met with kit: once the kit is bought; short: not even then; the others say why. */
export type MinimumStatus = "met" | "met with kit" | "short" | "not applicable" | "to be judged";

/** What one set of identical units, one part, or the whole ship must have. */
export interface MinimumShare {
  readonly forWhat: string;
  readonly required: number;
  readonly aboard: number;
  readonly withKit: number;
}

export interface MinimumFinding {
  readonly status: MinimumStatus;
  /** Why a rule does not apply or cannot be judged; empty otherwise. */
  readonly why: string;
  readonly units: readonly FittedUnit[];
  /** Units of that gear the rule itself leaves out. */
  readonly leftOut: readonly FittedUnit[];
  /** Indices of the spare classes that count. */
  readonly spares: readonly number[];
  /** Indices of classes that answer to the words but are on no parts list of this gear. */
  readonly unlisted: readonly number[];
  readonly required: number;
  readonly shares: readonly MinimumShare[];
}

/**
 * Returns whether the pieces aboard, and with the kit bought, meet one rule of a minimum list.
 *
 * Required pieces, n units of which K kinds (models): ship: q; unit: q n; kind: q K; number: q ceil(n / per); per cent:
 * ceil(q / 100 x pieces fitted); never under `atLeast`. `mustFit` splits unit and kind rules by kind, and a piece
 * that fits two kinds is counted once (share-out.ts). `ofEach` asks for q of every matching part that is fitted, for
 * each unit (or once) by the basis.
 *
 * @param units everything fitted on the vessel
 * @param spares every part class that is fitted or aboard
 * Cost O(units x spares). Source: METHODS, minimum-list profiles; own derivation, oracles in tests/external.
 */
export function checkMinimum(
  rule: MinimumRule,
  units: readonly FittedUnit[],
  spares: readonly SpareClass[],
): MinimumFinding {
  const unitAt = (at: number): FittedUnit[] => {
    const unit = units[at];
    return unit === undefined ? [] : [unit];
  };
  const isOfGear = (unit: FittedUnit): boolean =>
    unit.category === "" ? saysPhrase(unit.name, rule.gear) : isPhrase(unit.category, rule.gear);
  const ofGear = [...units.keys()].filter((at) => unitAt(at).some(isOfGear));
  const isLeftOut = (at: number): boolean => saysPhrase(units[at]?.words ?? "", rule.notWhen);
  const inRule = ofGear.filter((at) => !isLeftOut(at));
  const named = [...spares.keys()].filter((at) => saysPhrase(spares[at]?.words ?? "", rule.spare));
  const fits = (spare: number, unit: number): boolean => (spares[spare]?.fitted.get(unit) ?? 0) > 0;
  const listed = named.filter((spare) => inRule.some((unit) => fits(spare, unit)));
  const counting = rule.mustFit ? listed : named;
  const facts = {
    units: inRule.flatMap(unitAt),
    leftOut: ofGear.filter(isLeftOut).flatMap(unitAt),
    spares: counting,
    unlisted:
      rule.mustFit && inRule.length > 0 ? named.filter((spare) => !listed.includes(spare)) : [],
    required: 0,
    shares: [],
  };
  if (rule.gear.length > 0 && ofGear.length === 0) {
    const why = `No fitted gear is listed as ${rule.gear.join(" or ")}; if the vessel has any, list it.`;
    return { ...facts, status: "not applicable", why };
  }
  if (rule.gear.length > 0 && inRule.length === 0) {
    const why = `The text leaves out ${facts.leftOut.map((unit) => unit.name).join(", ")} (${rule.notWhen.join(", ")}).`;
    return { ...facts, status: "not applicable", why };
  }
  if (rule.quantity === undefined) {
    const why = "The text names no number: decide what is enough, and check it yourself.";
    return { ...facts, status: "to be judged", why };
  }
  if (rule.coversUnits !== undefined && inRule.length > rule.coversUnits) {
    const why = `The text speaks of ${rule.coversUnits} at most and ${inRule.length} are fitted: ask whoever enforces it.`;
    return { ...facts, status: "to be judged", why };
  }
  const fittedPieces = listed.reduce(
    (sum, spare) =>
      sum + inRule.reduce((pieces, unit) => pieces + (spares[spare]?.fitted.get(unit) ?? 0), 0),
    0,
  );
  if ((rule.basis === "per cent" || rule.ofEach) && fittedPieces === 0) {
    const why = `No part called ${rule.spare.join(" or ")} is on the parts list of this gear, so there is nothing to count from.`;
    return { ...facts, status: "to be judged", why };
  }
  const groups = groupsOf(rule, rule.quantity);
  const needs: Need[] = groups.map(({ required, accepts }) => ({ pieces: required, accepts }));
  const aboard = shareOut(
    needs,
    spares.map((spare) => spare.aboard),
  );
  const withKit = shareOut(
    needs,
    spares.map((spare) => spare.aboard + spare.bought),
  );
  const shares = groups.map(({ forWhat, required }, at) => ({
    forWhat,
    required,
    aboard: aboard[at] ?? 0,
    withKit: withKit[at] ?? 0,
  }));
  const isMet = (of: (share: MinimumShare) => number): boolean =>
    shares.every((share) => of(share) >= share.required);
  return {
    ...facts,
    required: shares.reduce((sum, share) => sum + share.required, 0),
    shares,
    status: isMet((share) => share.aboard)
      ? "met"
      : isMet((share) => share.withKit)
        ? "met with kit"
        : "short",
    why: "",
  };

  function groupsOf(
    { basis, per, atLeast, ofEach, mustFit }: MinimumRule,
    quantity: number,
  ): { forWhat: string; required: number; accepts: readonly number[] }[] {
    const count = (n: number, kinds: number): number => {
      if (basis === "ship") return quantity;
      if (basis === "unit") return quantity * n;
      if (basis === "kind") return quantity * kinds;
      return quantity * Math.ceil(n / per);
    };
    const kinds = [...new Set(inRule.map((at) => units[at]?.kind ?? ""))];
    const ceil = (pieces: number): number => Math.max(atLeast, Math.ceil(pieces - 1e-9));
    if (ofEach) {
      return listed.map((spare) => {
        const takers = inRule.filter((unit) => fits(spare, unit));
        const takerKinds = new Set(takers.map((at) => units[at]?.kind));
        const fitted = takers.reduce((sum, at) => sum + (spares[spare]?.fitted.get(at) ?? 0), 0);
        return {
          forWhat: spares[spare]?.name ?? "",
          required: ceil(
            basis === "per cent"
              ? (quantity * fitted) / 100
              : count(takers.length, takerKinds.size),
          ),
          accepts: [spare],
        };
      });
    }
    if (mustFit && (basis === "unit" || basis === "kind")) {
      return kinds.map((kind) => {
        const own = inRule.filter((at) => units[at]?.kind === kind);
        return {
          forWhat: units[own[0] ?? -1]?.kindName ?? "",
          required: ceil(count(own.length, 1)),
          accepts: listed.filter((spare) => own.some((unit) => fits(spare, unit))),
        };
      });
    }
    const pieces =
      basis === "per cent" ? (quantity * fittedPieces) / 100 : count(inRule.length, kinds.length);
    return [{ forWhat: "", required: ceil(pieces), accepts: counting }];
  }
}
