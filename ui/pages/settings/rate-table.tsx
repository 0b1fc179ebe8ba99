import { useState } from "react";
import { Button, Form, Input, Label, TextField } from "react-aria-components";
import { dayText, measureText } from "../../components/figures.ts";
import { readDay } from "../../components/read-day.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { type ExchangeRate, setPreferences } from "../../data/preferences.ts";

const numberOf = (text: string) => Number(text.trim().replace(",", "."));

/** Exchange rates typed by hand, each with the day it was read; offers in a currency without one do not count. */
export function RateTable({
  rates,
  currency,
}: {
  readonly rates: readonly ExchangeRate[];
  readonly currency: string;
}) {
  const [code, setCode] = useState("");
  const [value, setValue] = useState("");
  const [asOf, setAsOf] = useState("");
  const isCode = /^[A-Za-z]{3}$/.test(code);
  const isValue = numberOf(value) > 0;
  const planning = currency === "" ? "the planning currency" : currency;
  const columns: readonly Column<ExchangeRate>[] = [
    { id: "currency", name: "One", kind: "name", cell: (rate) => rate.currency },
    {
      id: "value",
      name: `is worth, ${planning}`,
      kind: "number",
      cell: (rate) => measureText(rate.value),
    },
    {
      id: "asOf",
      name: "Read on",
      cell: (rate) =>
        rate.asOf === "" ? <span className="doubt">no date</span> : dayText(rate.asOf),
    },
    {
      id: "remove",
      name: "Take out",
      cell: (rate) => (
        <Button
          className="quiet"
          onPress={() => setPreferences({ rates: rates.filter((other) => other !== rate) })}
        >
          Take out<span className="hidden"> {rate.currency}</span>
        </Button>
      ),
    },
  ];
  return (
    <>
      {rates.length === 0 ? (
        <p>No exchange rate yet: offers in other currencies are left out of a kit's price.</p>
      ) : (
        <DataTable
          caption="Exchange rates"
          columns={columns}
          rows={rates}
          rowKey={(rate) => rate.currency}
        />
      )}
      <Form
        className="line-form rate-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (!isCode || !isValue) return;
          const rate = {
            currency: code.toUpperCase(),
            value: numberOf(value),
            asOf: readDay(asOf) ?? "",
          };
          setPreferences({
            rates: [...rates.filter((other) => other.currency !== rate.currency), rate],
          });
          setCode("");
          setValue("");
        }}
      >
        <TextField className="field" value={code} onChange={setCode} maxLength={3}>
          <Label>Currency, three letters</Label>
          <Input className="text-input" placeholder="GBP" />
        </TextField>
        <TextField className="field" value={value} onChange={setValue} inputMode="decimal">
          <Label>Worth of one, {planning}</Label>
          <Input className="text-input" placeholder="1.17" />
        </TextField>
        <TextField className="field" value={asOf} onChange={setAsOf}>
          <Label>Read on</Label>
          <Input className="text-input" placeholder="25 Nov 2026" />
        </TextField>
        <Button type="submit" className="quiet" isDisabled={!isCode || !isValue}>
          Add the rate
        </Button>
      </Form>
    </>
  );
}
