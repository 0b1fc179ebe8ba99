import { useEffect, useState } from "react";
import { FieldError, Input, Label, TextField } from "react-aria-components";
import { readFigure } from "../../components/read-figure.ts";

/** A limit that may be left empty; what is typed that is no number stays, with the reason under it. */
export function LimitBox({
  label,
  value,
  placeholder = "no cap",
  most = 1e9,
  labelHidden = false,
  onChange,
}: {
  readonly label: string;
  readonly value: number | undefined;
  readonly placeholder?: string;
  readonly most?: number;
  readonly labelHidden?: boolean;
  readonly onChange: (value: number | undefined) => void;
}) {
  const shown = value === undefined ? "" : String(value);
  const [typed, setTyped] = useState(shown);
  const [fault, setFault] = useState<string>();
  useEffect(() => {
    setTyped(shown);
    setFault(undefined);
  }, [shown]);
  const tell = () => {
    const found = readFigure(typed, most);
    setFault(typeof found === "string" ? found : undefined);
    if (typeof found !== "string" && found !== value) onChange(found);
  };
  return (
    <TextField
      className="field limit-box"
      value={typed}
      onChange={setTyped}
      onBlur={tell}
      onKeyDown={(event) => {
        if (event.key === "Enter") tell();
      }}
      isInvalid={fault !== undefined}
      inputMode="decimal"
      {...(labelHidden ? { "aria-label": label } : {})}
    >
      {!labelHidden && <Label>{label}</Label>}
      <Input className="text-input" placeholder={placeholder} />
      <FieldError className="field-fault">{fault}</FieldError>
    </TextField>
  );
}
