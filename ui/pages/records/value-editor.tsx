import { Pencil } from "lucide-react";
import { useEffect, useRef, useState } from "react";
import { Button, Form, Input, Label, TextField } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type { PropertyDocument } from "../../../api/contract/records.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { ProblemNote } from "../../components/notice.tsx";
import { askEverythingAgain, problemOf } from "../../data/use-answer.ts";
import { propertyWord, typedValue, valueWords } from "./value-words.ts";

const unknownValue = "not known";

/** Choices of a field that has a few: yes and no, or those the schema names. */
const choicesOf = (field: PropertyDocument): readonly string[] | undefined =>
  field.kind === "boolean" ? ["yes", "no"] : field.choices;

/**
 * One value, shown and corrected in place: press it, type as you would in a spreadsheet (`2.5 lb`, `31 Mar 2027`), Enter
 * keeps it, Escape leaves it as it was. A refusal stands beside the field and what was typed stays.
 */
export function ValueEditor({
  field,
  value,
  properties,
  onSave,
}: {
  readonly field: PropertyDocument;
  readonly value: unknown;
  readonly properties: Readonly<Record<string, unknown>>;
  readonly onSave: (text: string | null) => Promise<void>;
}) {
  const [isOpen, setOpen] = useState(false);
  const [text, setText] = useState("");
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState<ProblemDocument>();
  const input = useRef<HTMLInputElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const words = propertyWord(field.property);
  const choices = choicesOf(field);
  const shown = valueWords(field, value, properties);
  useEffect(() => {
    if (isOpen) input.current?.select();
  }, [isOpen]);
  const close = () => {
    setOpen(false);
    setProblem(undefined);
    requestAnimationFrame(() => opener.current?.focus());
  };
  const save = async (next: string) => {
    if (next === typedValue(field, value, properties)) {
      close();
      return;
    }
    setBusy(true);
    setProblem(undefined);
    try {
      await onSave(next === "" ? null : next);
      close();
    } catch (error) {
      const refused = problemOf(error);
      setProblem(refused);
      if (refused.code === "write-stale") askEverythingAgain();
    }
    setBusy(false);
  };
  if (!isOpen)
    return (
      <Button
        ref={opener}
        className="value-button"
        aria-label={`Change ${words}, now ${shown === "" ? unknownValue : shown}`}
        onPress={() => {
          setText(typedValue(field, value, properties));
          setOpen(true);
        }}
      >
        <span className={shown === "" ? "doubt" : ""}>{shown === "" ? unknownValue : shown}</span>
        <Pencil size={14} aria-hidden="true" />
      </Button>
    );
  return (
    <div className="value-open">
      {choices === undefined ? (
        <Form
          className="value-form"
          onSubmit={(event) => {
            event.preventDefault();
            void save(text.trim());
          }}
        >
          <TextField
            className="field"
            value={text}
            onChange={setText}
            isDisabled={isBusy}
            autoFocus
            onKeyDown={(event) => {
              if (event.key === "Escape") close();
              else event.continuePropagation();
            }}
          >
            <Label className="hidden">{words}</Label>
            <Input ref={input} className="text-input" />
          </TextField>
          <Button type="submit" className="act" isDisabled={isBusy}>
            Keep
          </Button>
          <Button className="quiet" onPress={close}>
            Leave it
          </Button>
        </Form>
      ) : (
        <div className="value-form">
          <Choice
            label={words}
            labelHidden
            value={shown === "" ? "" : shown}
            placeholder={unknownValue}
            groups={[
              {
                name: "",
                options: [
                  ...choices.map((choice) => ({ id: choice, name: choice })),
                  ...(field.required ? [] : [{ id: "", name: unknownValue }]),
                ],
              },
            ]}
            onChange={(choice) => void save(choice)}
          />
          <Button className="quiet" onPress={close}>
            Leave it
          </Button>
        </div>
      )}
      <p className="said">{field.meaning}</p>
      {problem?.code === "write-stale" ? (
        <p className="problem" role="alert">
          <strong>Someone else has changed this record meanwhile.</strong> Here it now says{" "}
          {shown === "" ? unknownValue : shown}. Keep puts what you typed in its place; leave it and
          theirs stays.
        </p>
      ) : (
        problem !== undefined && <ProblemNote problem={problem} />
      )}
    </div>
  );
}
