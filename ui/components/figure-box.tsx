import { useEffect, useState } from "react";
import { FieldError, Input, Label, Text, TextField } from "react-aria-components";

/** What a typed text says, or a sentence that says why it says nothing. */
export type Read<Value> = { readonly value: Value } | { readonly fault: string };

/**
 * A labelled figure or word that may be left empty; the change is told on Enter or when the reader goes on. A fault stands
 * under the field, and what was typed stays.
 */
export function FigureBox<Value>({
  label,
  shown,
  hint,
  placeholder = "not stated",
  isNeeded = false,
  fault,
  read,
  onChange,
}: {
  readonly label: string;
  readonly shown: string;
  /** What is known of the field, under it. */
  readonly hint?: string | undefined;
  readonly placeholder?: string;
  readonly isNeeded?: boolean;
  /** What is wrong with it as it stands, known from elsewhere. */
  readonly fault?: string | undefined;
  readonly read: (text: string) => Read<Value>;
  readonly onChange: (value: Value) => void;
}) {
  const [typed, setTyped] = useState(shown);
  const [wrong, setWrong] = useState<string>();
  useEffect(() => {
    setTyped(shown);
    setWrong(undefined);
  }, [shown]);
  const tell = () => {
    const found = read(typed);
    if ("fault" in found) {
      setWrong(found.fault);
      return;
    }
    setWrong(undefined);
    if (typed.trim() !== shown) onChange(found.value);
  };
  const why = wrong ?? fault;
  return (
    <TextField
      className="field"
      value={typed}
      onChange={setTyped}
      onBlur={tell}
      onKeyDown={(event) => {
        if (event.key === "Enter") tell();
      }}
      isInvalid={why !== undefined}
      isRequired={isNeeded}
      validationBehavior="aria"
    >
      <Label>{label}</Label>
      <Input className="text-input" placeholder={placeholder} />
      {hint !== undefined && why === undefined && (
        <Text slot="description" className="field-hint">
          {hint}
        </Text>
      )}
      <FieldError className="field-fault">{why}</FieldError>
    </TextField>
  );
}
