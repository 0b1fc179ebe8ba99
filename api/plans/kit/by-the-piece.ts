import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";

/** A notice that a kit was reckoned piece by piece, where packs or service kits could make it another. */
export function byThePieceNotice(
  snapshot: Snapshot,
  kit: Pick<VesselKit, "rows" | "prices">,
): readonly { code: string; text: string }[] {
  const packed = kit.rows.some(
    (row) => row.buy > 0 && kit.prices.price(row.demand.partClass).soldInPacks,
  );
  if (!packed && snapshot.contains.kit.length === 0) return [];
  return [
    {
      code: "by-the-piece",
      text: "Reckoned piece by piece. The kit itself also weighs packs and service kits, so its pieces may differ a little.",
    },
  ];
}
