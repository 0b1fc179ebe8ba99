import { useEffect, useState } from "react";
import { FieldError, Input, Label, TextField } from "react-aria-components";
import { dayText } from "./figures.ts";
import { readDay } from "./read-day.ts";

const shownDay = (day: string) => (day === "" ? "" : dayText(day));

/** A day typed as people write it; the change is told on Enter or when the reader goes on, an empty field as "". */
export function DayBox({
  label,
  value,
  placeholder = "31 Mar 2027",
  fault,
  onChange,
}: {
  readonly label: string;
  /** ISO day, or empty. */
  readonly value: string;
  readonly placeholder?: string;
  /** What the program had against the day that stands here. */
  readonly fault?: string | undefined;
  readonly onChange: (day: string) => void;
}) {
  const [typed, setTyped] = useState(shownDay(value));
  const [isWrong, setWrong] = useState(false);
  useEffect(() => {
    setTyped(shownDay(value));
    setWrong(false);
  }, [value]);
  const tell = () => {
    const text = typed.trim();
    const day = text === "" ? "" : readDay(text);
    setWrong(day === undefined);
    if (day === undefined) return;
    setTyped(shownDay(day));
    if (day !== value) onChange(day);
  };
  return (
    <TextField
      className="field day-box"
      value={typed}
      onChange={setTyped}
      onBlur={tell}
      onKeyDown={(event) => {
        if (event.key === "Enter") tell();
      }}
      isInvalid={isWrong || fault !== undefined}
    >
      <Label>{label}</Label>
      <Input className="text-input" placeholder={placeholder} />
      <FieldError className="field-fault">
        {isWrong ? "Write a day like 31 Mar 2027." : fault}
      </FieldError>
    </TextField>
  );
}
