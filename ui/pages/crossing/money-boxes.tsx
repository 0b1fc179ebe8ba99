import { TextBox } from "../../components/text-box.tsx";
import { changeQuery } from "../../routing/route.ts";
import { readRates, writeRates } from "./money-terms.ts";

/** The currency to reckon in, and what one of another currency is worth in it, as they stand in the address. */
export function MoneyBoxes({
  query,
  usual,
}: {
  readonly query: ReadonlyMap<string, string>;
  /** The currency reckoned in where none is asked for. */
  readonly usual: string;
}) {
  return (
    <>
      <TextBox
        label="Money in, three letters"
        placeholder={usual}
        value={query.get("currency") ?? ""}
        onChange={(text) => {
          const code = text.toUpperCase();
          if (code === "" || /^[A-Z]{3}$/.test(code)) changeQuery({ currency: code });
        }}
      />
      <TextBox
        label="Worth of one of another currency"
        placeholder="GBP 1.17, USD 0.92"
        value={Object.entries(readRates(query.get("rates")))
          .map(([code, value]) => `${code} ${value}`)
          .join(", ")}
        onChange={(text) => changeQuery({ rates: writeRates(readRates(text)) })}
      />
    </>
  );
}
