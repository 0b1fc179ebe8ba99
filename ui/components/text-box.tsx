import { useEffect, useState } from "react";
import { Input, Label, TextField } from "react-aria-components";

/** A line of text; the change is told on Enter or when the reader goes on. */
export function TextBox({
  label,
  value,
  placeholder,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  readonly placeholder: string;
  readonly onChange: (value: string) => void;
}) {
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  const tell = () => {
    const text = typed.trim();
    if (text !== value) onChange(text);
  };
  return (
    <TextField
      className="field"
      value={typed}
      onChange={setTyped}
      onBlur={tell}
      onKeyDown={(event) => {
        if (event.key === "Enter") tell();
      }}
    >
      <Label>{label}</Label>
      <Input className="text-input" placeholder={placeholder} />
    </TextField>
  );
}
