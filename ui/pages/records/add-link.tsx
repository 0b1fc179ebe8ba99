import { owners } from "virtual:schema-list";
import { Plus } from "lucide-react";
import { useState } from "react";
import { Button, Form, Input, Label, TextField } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { tellChange } from "../../data/last-change.ts";
import { editLink } from "../../data/records-client.ts";
import { problemOf } from "../../data/use-answer.ts";
import { GivenField } from "./given-field.tsx";
import type { LinkKind } from "./link-kinds.ts";
import { linkTitle } from "./link-titles.ts";

/** Adding a line: the other record by name or number, and what is known of it. */
export function AddLink({
  record,
  kind,
}: {
  readonly record: RecordDocument;
  readonly kind: LinkKind;
}) {
  const [isOpen, setOpen] = useState(false);
  const [other, setOther] = useState("");
  const [given, setGiven] = useState<Readonly<Record<string, string>>>({});
  const [problem, setProblem] = useState<ProblemDocument>();
  const title = linkTitle(kind.type, kind.direction).toLowerCase();
  const declared = owners.find(({ owner }) => owner === kind.type)?.properties ?? [];
  const fields = kind.fields.flatMap((name) => declared.find((field) => field.name === name) ?? []);
  const add = async () => {
    setProblem(undefined);
    const set = Object.fromEntries(Object.entries(given).filter(([, text]) => text.trim() !== ""));
    const [from, to] =
      kind.direction === "out" ? [record.id, other.trim()] : [other.trim(), record.id];
    try {
      tellChange(await editLink(kind.type, from, to, { set }));
      setOpen(false);
      setOther("");
      setGiven({});
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  if (!isOpen)
    return (
      <Button className="quiet" onPress={() => setOpen(true)}>
        <Plus size={18} aria-hidden="true" /> Add to: {title}
      </Button>
    );
  return (
    <Form
      className="add-record"
      aria-label={`Add to: ${title}`}
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <div className="settings">
        <TextField className="field" value={other} onChange={setOther} isRequired>
          <Label>{kind.other}, by name or number</Label>
          <Input className="text-input" />
        </TextField>
        {fields.map((field) => (
          <GivenField
            key={field.name}
            field={field}
            value={given[field.name] ?? ""}
            onChange={(text) => setGiven((before) => ({ ...before, [field.name]: text }))}
          />
        ))}
      </div>
      {problem !== undefined && <ProblemNote problem={problem} />}
      <div className="deed">
        <Button type="submit" className="act">
          Add it
        </Button>
        <Button className="quiet" onPress={() => setOpen(false)}>
          Leave it
        </Button>
      </div>
    </Form>
  );
}
