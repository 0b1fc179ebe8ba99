import { useEffect, useState } from "react";
import { FieldError, Input, TextField } from "react-aria-components";

/** One figure or word of a table, typed in its cell; a fault stands under it and what was typed stays. */
export function TermBox<Value>({
  label,
  shown,
  placeholder = "none",
  read,
  fault,
  onChange,
}: {
  readonly label: string;
  readonly shown: string;
  readonly placeholder?: string;
  /** What the text says, or a sentence in `fault` that says why it says nothing. */
  readonly read: (text: string) => { readonly value: Value } | { readonly fault: string };
  readonly fault?: string | undefined;
  readonly onChange: (value: Value) => void;
}) {
  const [typed, setTyped] = useState(shown);
  const [wrong, setWrong] = useState<string>();
  useEffect(() => {
    setTyped(shown);
    setWrong(undefined);
  }, [shown]);
  const tell = () => {
    if (typed.trim() === shown) {
      setTyped(shown);
      setWrong(undefined);
      return;
    }
    const found = read(typed);
    if ("fault" in found) setWrong(found.fault);
    else {
      setWrong(undefined);
      onChange(found.value);
    }
  };
  const why = wrong ?? fault;
  return (
    <TextField
      className="field term-box"
      aria-label={label}
      value={typed}
      onChange={setTyped}
      onBlur={tell}
      onKeyDown={(event) => {
        if (event.key === "Enter") tell();
      }}
      isInvalid={why !== undefined}
    >
      <Input className="text-input" placeholder={placeholder} />
      <FieldError className="field-fault">{why}</FieldError>
    </TextField>
  );
}
