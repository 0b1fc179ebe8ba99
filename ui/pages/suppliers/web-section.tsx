import type { SuppliersAnswer } from "../../../api/contract/suppliers.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { changeQuery } from "../../routing/route.ts";
import { WebPicture } from "./web-picture.tsx";

const kinds = ["part", "model", "supplier"] as const;

/** The web of what is picked in the address (a part, a model or a supplier), or of a supplier chosen here. */
export function WebSection({
  query,
  suppliers,
}: {
  readonly query: ReadonlyMap<string, string>;
  readonly suppliers: SuppliersAnswer["suppliers"];
}) {
  const kind = kinds.find((name) => query.has(name));
  const id = kind === undefined ? undefined : query.get(kind);
  return (
    <section aria-labelledby="web-title">
      <h2 id="web-title">What hangs together with one of them</h2>
      <div className="settings">
        <Choice
          label="Supplier"
          value={query.get("supplier") ?? null}
          groups={[{ name: "", options: suppliers.map(({ supplier }) => supplier) }]}
          onChange={(supplier) => changeQuery({ supplier, part: "", model: "" })}
        />
      </div>
      {kind !== undefined && id !== undefined && <WebPicture key={id} kind={kind} id={id} />}
    </section>
  );
}
