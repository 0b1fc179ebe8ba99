import type { KitAnswer } from "../../../api/contract/kit.contract.ts";

/** What is bought otherwise than by the single piece: packs, least orders, service kits, and boxes aboard to open. */
export function SoldAsList({ answer }: { readonly answer: KitAnswer }) {
  const apart = answer.purchases.filter(
    ({ kind, leastUnits }) => kind !== "piece" || leastUnits > 1,
  );
  if (apart.length === 0) return null;
  return (
    <section aria-labelledby="sold-title">
      <h2 id="sold-title">Bought otherwise than by the piece</h2>
      <ul>
        {apart.map(({ part, kind, supplier, words }) => (
          <li key={`${kind} ${part.id} ${supplier ?? ""}`}>{words}</li>
        ))}
      </ul>
    </section>
  );
}
