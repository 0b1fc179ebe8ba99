import type { KitAnswer } from "../../contract/kit.contract.ts";
import {
  bindFunction,
  type FunctionBinding,
  type FunctionChance,
} from "../../scoring/provision/function-chances.ts";
import type { ServedFunction } from "../../scoring/provision/function-slack.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { chanceWords } from "../words.ts";
import { tierNames } from "./kit-lines.ts";

type Survival = KitAnswer["functions"][number];
type Method = Survival["method"];

/** Figures closer than this are one. */
const alike = 1e-6;

/** How likely each required function is to last the crossing, so far as spares decide it. */
export function functionSurvivals(
  snapshot: Snapshot,
  kit: VesselKit,
  robbing: boolean,
): Survival[] {
  return kit.demand.functions.map((f) => {
    const binding = bindFunction(snapshot, kit, f, robbing);
    const aboard = binding.chance((row) => row.usable);
    const carried = binding.chance((row) => row.usable + row.buy);
    const method = methodOf(f, binding, robbing);
    return {
      function: {
        id: String(snapshot.functions.id[f.row] ?? ""),
        name: snapshot.functions.name[f.row] ?? "",
      },
      tier: tierNames[f.tier === 0 ? 0 : f.tier === 2 ? 2 : 1],
      need: f.need,
      fitted: f.items.length,
      sameModel: f.soleModel >= 0,
      withAboard: aboard.atLeast,
      withAboardAtMost: aboard.atMost,
      withKit: carried.atLeast,
      withKitAtMost: carried.atMost,
      isExact: isExact(aboard) && isExact(carried),
      method,
      words: words(f, carried, method),
    };
  });
}

const isExact = ({ atLeast, atMost }: FunctionChance): boolean => atMost - atLeast <= alike;

function methodOf(f: ServedFunction, binding: FunctionBinding, robbing: boolean): Method {
  if (f.tier === 0) return "no credit";
  if (!robbing || f.items.length < f.need) return "no robbing";
  if (binding.makes <= 1) return "robbing";
  return binding.sharesParts ? "makes that share parts" : "convolution of mixed models";
}

function words(f: ServedFunction, carried: FunctionChance, method: Method): string {
  const needs = `${f.need} of ${f.items.length} needed`;
  if (f.items.length === 0) return "Nothing fitted serves it: it can't be met.";
  if (f.items.length < f.need) return `${needs}: cannot be met with what is fitted.`;
  const credit = method === "no credit" ? "; safety gear, so every item counts as needed" : "";
  const most = chanceWords(1 - carried.atLeast);
  const least = chanceWords(1 - carried.atMost);
  if (isExact(carried) || most === least) {
    return `${needs}${credit}: lost for want of a part in ${most} crossings with the kit (failures no spare can mend are listed apart).`;
  }
  const why =
    method === "makes that share parts"
      ? "makes share parts, and it depends on which gives its own"
      : "it depends on whether a service or other gear takes the last piece first";
  return `${needs}${credit}: lost for want of a part in ${most} crossings with the kit at worst, ${least} at best (${why}; simulate says where between).`;
}
