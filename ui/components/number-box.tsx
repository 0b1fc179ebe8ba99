import { Button, Group, Input, Label, NumberField } from "react-aria-components";

/** A number typed or stepped; the change is told when the reader is done with it. */
export function NumberBox({
  label,
  value,
  min,
  max,
  step = 1,
  decimals = 0,
  onChange,
}: {
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step?: number;
  readonly decimals?: number;
  readonly onChange: (value: number) => void;
}) {
  return (
    <NumberField
      className="field number-box"
      value={value}
      minValue={min}
      maxValue={max}
      {...(decimals === 0 ? { step } : {})}
      formatOptions={{ maximumFractionDigits: decimals }}
      onChange={(next) => {
        if (Number.isFinite(next) && next !== value) onChange(next);
      }}
    >
      <Label>{label}</Label>
      <Group className="number-group">
        <Input className="number-input" />
        {decimals === 0 && (
          <>
            <Button slot="decrement" className="step">
              −
            </Button>
            <Button slot="increment" className="step">
              +
            </Button>
          </>
        )}
      </Group>
    </NumberField>
  );
}
