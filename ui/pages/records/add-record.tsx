import { owners } from "virtual:schema-list";
import { Plus } from "lucide-react";
import { useState } from "react";
import { Button, Form, Input, Label, TextField } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import { kindWord } from "../../components/kind-words.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { tellChange } from "../../data/last-change.ts";
import { createRecord } from "../../data/records-client.ts";
import { problemOf } from "../../data/use-answer.ts";
import { goTo } from "../../routing/route.ts";
import { hitAddress } from "../../shell/hit-address.ts";
import { GivenField } from "./given-field.tsx";

/** A record a new one must lead to, named by the person: "Maker". */
export interface AskedLink {
  readonly type: string;
  readonly label: string;
  readonly value?: string;
  readonly isNeeded: boolean;
}

/** Adding a record: what the schema asks of it, and the records it belongs to by name. The bar offers to undo it. */
export function AddRecord({
  label,
  links,
  fields,
}: {
  readonly label: string;
  readonly links: readonly AskedLink[];
  /** Properties asked for, in order; others are added in place afterwards. */
  readonly fields: readonly string[];
}) {
  const [isOpen, setOpen] = useState(false);
  const [given, setGiven] = useState<Readonly<Record<string, string>>>({});
  const [problem, setProblem] = useState<ProblemDocument>();
  const declared = owners.find(({ owner }) => owner === label)?.properties ?? [];
  const asked = fields.flatMap((name) => declared.find((field) => field.name === name) ?? []);
  const set = (name: string, text: string) => setGiven((before) => ({ ...before, [name]: text }));
  const filled = (names: readonly string[]) =>
    Object.fromEntries(
      names.flatMap((name) => {
        const text = given[name]?.trim() ?? "";
        return text === "" ? [] : [[name, text]];
      }),
    );
  const add = async () => {
    setProblem(undefined);
    try {
      const preset = Object.fromEntries(
        links.flatMap(({ type, value }) => (value === undefined ? [] : [[type, value]])),
      );
      const made = await createRecord({
        label,
        set: filled(fields),
        links: { ...preset, ...filled(links.map(({ type }) => type)) },
      });
      tellChange(made);
      setOpen(false);
      setGiven({});
      const address = hitAddress(made.record.label, made.record.id);
      if (address !== undefined) goTo(address);
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  if (!isOpen)
    return (
      <Button className="quiet" onPress={() => setOpen(true)}>
        <Plus size={18} aria-hidden="true" /> Add a {kindWord(label)}
      </Button>
    );
  return (
    <Form
      className="add-record"
      aria-label={`Add a ${kindWord(label)}`}
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <h2>Add a {kindWord(label)}</h2>
      <div className="settings">
        {links
          .filter(({ value }) => value === undefined)
          .map((link) => (
            <TextField
              key={link.type}
              className="field"
              value={given[link.type] ?? ""}
              onChange={(text) => set(link.type, text)}
              isRequired={link.isNeeded}
            >
              <Label>
                {link.label}, by name{link.isNeeded ? "" : " (if known)"}
              </Label>
              <Input className="text-input" />
            </TextField>
          ))}
        {asked.map((field) => (
          <GivenField
            key={field.name}
            field={field}
            value={given[field.name] ?? ""}
            onChange={(text) => set(field.name, text)}
          />
        ))}
      </div>
      {problem !== undefined && <ProblemNote problem={problem} />}
      <div className="deed">
        <Button type="submit" className="act">
          Add it
        </Button>
        <Button
          className="quiet"
          onPress={() => {
            setOpen(false);
            setProblem(undefined);
          }}
        >
          Leave it
        </Button>
      </div>
    </Form>
  );
}
