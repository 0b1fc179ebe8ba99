import { owners } from "virtual:schema-list";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { tellChange } from "../../data/last-change.ts";
import { editRecord } from "../../data/records-client.ts";
import { problemOf } from "../../data/use-answer.ts";
import { textOf } from "../records/record-columns.ts";
import { ValueEditor } from "../records/value-editor.tsx";

const declared = owners.find(({ owner }) => owner === "Order")?.properties ?? [];

const dates = [
  { property: "placed", name: "Sent on" },
  { property: "expected", name: "Expected" },
] as const;

/** What one does with an order until it comes: say that it was sent and when it is promised, or give it up. */
export function SentDeeds({ order }: { readonly order: RecordDocument }) {
  const [problem, setProblem] = useState<ProblemDocument>();
  const edit = async (set: Readonly<Record<string, string | null>>) =>
    tellChange(await editRecord(order.id, { basedOn: order.version, set }));
  const attempt = async (set: Readonly<Record<string, string>>) => {
    setProblem(undefined);
    try {
      await edit(set);
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  return (
    <>
      <dl className="record-values">
        {dates.map(({ property, name }) => {
          const field = declared.find((one) => one.name === property);
          return field === undefined ? null : (
            <div key={property}>
              <dt>{name}</dt>
              <dd>
                <ValueEditor
                  field={{ property, kind: field.kind, meaning: field.meaning, required: false }}
                  value={order.properties[property]}
                  properties={order.properties}
                  onSave={(text) => edit({ [property]: text })}
                />
              </dd>
            </div>
          );
        })}
      </dl>
      <div className="deed">
        {textOf(order, "status") === "planned" && (
          <Button
            className="quiet"
            onPress={() =>
              void attempt({
                status: "placed",
                ...(textOf(order, "placed") === ""
                  ? { placed: new Date().toISOString().slice(0, 10) }
                  : {}),
              })
            }
          >
            It was sent to the supplier
          </Button>
        )}
        <Button className="quiet" onPress={() => void attempt({ status: "cancelled" })}>
          It will not come
        </Button>
      </div>
      {problem !== undefined && <ProblemNote problem={problem} />}
    </>
  );
}
