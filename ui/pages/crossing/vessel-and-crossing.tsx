import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { changeQuery } from "../../routing/route.ts";

/** Which vessel, and which of its crossings; what was typed for another crossing goes with it. */
export function VesselAndCrossing({
  vessel,
  crossing,
  overview,
  ownDays,
}: {
  readonly vessel: { readonly id: string; readonly name: string };
  readonly crossing: { readonly id: string | null; readonly name: string };
  readonly overview: OverviewAnswer | undefined;
  /** Names in the address of what is typed for one crossing only. */
  readonly ownDays: readonly string[];
}) {
  const crossings = overview?.crossings ?? [];
  return (
    <>
      <Choice
        label="Vessel"
        value={vessel.id}
        groups={[{ name: "", options: overview?.vessels ?? [vessel] }]}
        onChange={(id) => changeQuery({ vessel: id, stow: "" })}
      />
      {crossings.length > 0 && (
        <Choice
          label="Crossing"
          value={crossing.id}
          placeholder={crossing.name}
          groups={[{ name: "", options: crossings.map(({ id, name }) => ({ id, name })) }]}
          onChange={(id) =>
            changeQuery({ crossing: id, ...Object.fromEntries(ownDays.map((name) => [name, ""])) })
          }
        />
      )}
    </>
  );
}
