import type { FindAnswer } from "../../../api/contract/find.contract.ts";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";

/** Where a part lies aboard, how many, and whether it counts. */
export function PartAboard({ id, number }: { readonly id: string; readonly number: string }) {
  const { value } = useAnswer<FindAnswer>(`aboard ${id}`, (signal) =>
    ask<FindAnswer>(`/api/find?text=${encodeURIComponent(number)}&limit=20`, { signal }),
  );
  const hit = value?.hits.find((one) => one.id === id);
  if (value === undefined) return null;
  const lots = hit?.aboard ?? [];
  return lots.length === 0 ? (
    <p className="part-aboard">None is aboard.</p>
  ) : (
    <ul className="part-aboard">
      {lots.map((lot) => (
        <li key={lot.vessel + lot.place + lot.words} className={lot.usable ? "" : "doubt"}>
          {lot.words}
        </li>
      ))}
    </ul>
  );
}
