import type { ChoiceCandidate } from "../../contract/choose.contract.ts";
import { donorChance } from "../../scoring/choice/donor-chance.ts";
import type { FittedKits } from "../../scoring/choice/fitted-kits.ts";
import {
  type GearFootprint,
  gearFootprint,
  partsSupply,
} from "../../scoring/choice/gear-footprint.ts";
import { kitWithinSpend } from "../../scoring/choice/kit-within-spend.ts";
import type { TierTargets } from "../../scoring/kit/kit-problem.ts";
import type { SoldKit } from "../../scoring/provision/kit-sale.ts";
import { moneyIn } from "../../scoring/provision/money-in.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { functionSurvivals } from "../kit/kit-functions.ts";
import { modelReference } from "../kit/kit-lines.ts";
import { settleKit } from "../kit/provide-kit.ts";
import { purchaseTotals } from "../kit/purchase-totals.ts";
import type { ChoiceScene } from "./choice-scene.ts";

/** Everything that stays the same while one candidate after another is weighed. */
export interface Weighing {
  readonly snapshot: Snapshot;
  readonly vessel: number;
  readonly scene: ChoiceScene;
  readonly kits: FittedKits;
  readonly passage: Passage;
  readonly targets: TierTargets;
  readonly robbing: boolean;
  readonly rates: Readonly<Record<string, number>>;
  readonly before: {
    readonly kit: SoldKit;
    /** What today's kit costs by the piece: the money spent where survival is set against equal spend. */
    readonly spend: number;
    readonly cost: number | undefined;
    readonly footprint: GearFootprint;
  };
  /** Models typed in for this question. */
  readonly typed: ReadonlySet<number>;
  /** Names of those whose parts list was given but has no row that could be read. */
  readonly unread: ReadonlySet<string>;
}

/** A candidate's figures, without its rank, break-even prices and words, and what these are made of. */
export interface WeighedCandidate {
  readonly model: number;
  readonly priceEach: number | undefined;
  readonly kitCost: number | undefined;
  readonly figures: Omit<ChoiceCandidate, "rank" | "breakEven" | "words">;
}

/** Seconds for one kit whose service kits are too entangled for the fast methods. */
export const settling = { seconds: 5 } as const;

/** Weighs one model: fitted for trial in the positions, the kit solved again at the same targets. */
export async function weighCandidate(weighing: Weighing, model: number): Promise<WeighedCandidate> {
  const { snapshot, scene, kits, before, vessel } = weighing;
  const { currency } = kits;
  const money = (minor: number) => ({ minor, currency });
  const { units } = scene;
  const quoted = quotedPrice(snapshot, model);
  const priceEach = quoted === undefined ? undefined : moneyIn(currency, quoted, weighing.rates);
  const fitting = scene.fit(model, units);
  const unlisted = whyKitUnknown(weighing, model);
  const solved =
    unlisted === undefined
      ? await settleKit(
          kits.kitOf(fitting.snapshot, fitting.items, weighing.passage, weighing.targets),
          settling,
        )
      : undefined;
  const asksNothing = solved?.demand.lines.every((line) => line.model !== model) ?? true;
  const kitUnknown = unlisted ?? (asksNothing ? unreckoned : undefined);
  const kit = kitUnknown === undefined ? solved : undefined;
  const reached = kit !== undefined && kit.answer.status !== "infeasible" ? kit : undefined;
  const kitCost = reached?.answer.cost;
  const classes = kit?.classes ?? kits.classes;
  const footprint =
    kitUnknown === undefined ? gearFootprint(fitting.snapshot, classes, vessel) : undefined;
  const supply = partsSupply(snapshot, classes, model);
  const known = before.footprint;
  const listed = (snapshot.uses.start[model + 1] ?? 0) - (snapshot.uses.start[model] ?? 0);
  const slowest = classes.members[supply.slowest]?.[0] ?? -1;
  const massEach = snapshot.models.massKg[model] ?? Number.NaN;
  const countOf = (ids: ReadonlySet<number>, without: ReadonlySet<number>): number =>
    [...ids].filter((id) => !without.has(id)).length;
  return {
    model,
    priceEach,
    kitCost,
    figures: {
      model: modelReference(snapshot, model),
      maker: snapshot.makers.name[snapshot.models.maker[model] ?? -1] ?? "",
      typedIn: weighing.typed.has(model),
      fittedNow: scene.fittedNow.includes(model) ? units : 0,
      price: priceEach === undefined ? null : money(priceEach),
      priceQuoted: quoted ?? null,
      priceAll: priceEach === undefined ? null : money(priceEach * units),
      kitUnknown:
        kitUnknown ??
        (reached === undefined ? "no stock of spares reaches the targets with it fitted" : null),
      kit: reached === undefined ? null : kitFigures(reached, before.cost),
      boat:
        priceEach === undefined || kitCost === undefined
          ? null
          : money(priceEach * units + kitCost),
      newParts: footprint === undefined ? null : countOf(footprint.parts, known.parts),
      goneParts: footprint === undefined ? null : countOf(known.parts, footprint.parts),
      newKits: footprint === undefined ? null : footprint.kits - known.kits,
      newSuppliers: footprint === undefined ? null : footprint.suppliers - known.suppliers,
      partsListed: listed,
      partsWithoutEvidence:
        kit?.demand.withoutEvidence.filter((line) => line.model === model).length ?? listed,
      worstLeadTimeDays: Number.isNaN(supply.worstLeadTimeDays) ? null : supply.worstLeadTimeDays,
      slowestPart:
        slowest < 0
          ? null
          : `${snapshot.parts.partNumber[slowest] ?? ""} ${snapshot.parts.description[slowest] ?? ""}`.trim(),
      leadTimeUnknownParts: supply.leadTimeUnknown,
      singleSourceParts: supply.singleSource,
      unsoldParts: supply.unsold,
      massEachKg: Number.isNaN(massEach) ? null : massEach,
      donorChance:
        kit === undefined
          ? null
          : (donorChance(fitting.snapshot, classes, kit.demand, model) ?? null),
      functions: kit === undefined ? [] : functionFigures(weighing, fitting.snapshot, kit),
    },
  };
}

export function quotedPrice(
  { models }: Snapshot,
  model: number,
): { readonly minor: number; readonly currency: string } | undefined {
  const minor = models.priceMinor[model] ?? Number.NaN;
  const currency = models.currency[model] ?? "";
  return minor > 0 && currency !== "" ? { minor, currency } : undefined;
}

/** Why a list with evidence may still ask for nothing: rates per 1000 operations where no operations are given. */
const unreckoned =
  "how often its parts fail here cannot be told: say how many operations a day it does";

/** Why no kit can be worked out for gear of a model; a list without any evidence of failing says nothing either. */
function whyKitUnknown({ snapshot, unread }: Weighing, model: number): string | undefined {
  const { uses, services } = snapshot;
  const start = uses.start[model] ?? 0;
  const end = uses.start[model + 1] ?? 0;
  if (end <= start) {
    return unread.has(modelReference(snapshot, model).name)
      ? "no row of its parts list could be read"
      : "it has no parts list";
  }
  if (services.model.includes(model)) return undefined;
  for (let line = start; line < end; line++) {
    const hasEvidence =
      (uses.rateBasis[line] ?? 0) > 0 ||
      !Number.isNaN(uses.meanLifeHours[line] ?? Number.NaN) ||
      (uses.usedOverYears[line] ?? Number.NaN) > 0 ||
      (uses.rarity[line] ?? 0) > 0;
    if (hasEvidence) return undefined;
  }
  return "no part of its list has any evidence of failing";
}

function kitFigures(kit: SoldKit, before: number | undefined): NonNullable<ChoiceCandidate["kit"]> {
  const { costMinor: _, ...sizes } = purchaseTotals(kit);
  const { currency } = kit;
  return {
    cost: { minor: kit.answer.cost, currency },
    extra: before === undefined ? null : { minor: kit.answer.cost - before, currency },
    lowerBound: kit.answer.lowerBound,
    pieces: kit.rows.reduce((sum, row) => sum + row.buy, 0),
    ...sizes,
  };
}

/** How likely the functions the position serves are to last: with the kit, and with today's money spent on spares. */
function functionFigures(
  { scene, robbing, before }: Weighing,
  snapshot: Snapshot,
  kit: VesselKit,
): ChoiceCandidate["functions"] {
  const { buys } = kitWithinSpend(kit, before.spend);
  const atSpend = { ...kit, rows: kit.rows.map((row, at) => ({ ...row, buy: buys[at] ?? 0 })) };
  const ids = new Set(scene.functions.map((row) => String(snapshot.functions.id[row])));
  const spent = functionSurvivals(snapshot, atSpend, robbing);
  return functionSurvivals(snapshot, kit, robbing).flatMap((one, at) =>
    ids.has(one.function.id)
      ? [
          {
            function: one.function,
            tier: one.tier,
            atEqualProtection: one.withKit,
            atEqualSpend: spent[at]?.withKit ?? 0,
          },
        ]
      : [],
  );
}
