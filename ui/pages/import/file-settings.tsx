import type { ImportAnswer, ImportOptions } from "../../../api/contract/import.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { TextBox } from "../../components/text-box.tsx";

/** Currencies offered for prices that name none; a file may name any other itself. */
const currencies = [
  "EUR",
  "USD",
  "GBP",
  "CHF",
  "NOK",
  "SEK",
  "DKK",
  "ISK",
  "PLN",
  "CAD",
  "AUD",
  "NZD",
  "BRL",
  "ZAR",
  "JPY",
] as const;

/** The options without one of them. */
function without<K extends keyof ImportOptions>(
  options: ImportOptions,
  name: K,
): Omit<ImportOptions, K> {
  const { [name]: _, ...rest } = options;
  return rest;
}

/** How the file is to be read, where it does not say so itself; each change proposes afresh. */
export function FileSettings({
  answer,
  options,
  onOptions,
}: {
  readonly answer: ImportAnswer;
  readonly options: ImportOptions;
  readonly onOptions: (options: ImportOptions) => void;
}) {
  return (
    <div className="settings">
      <Choice
        label="Read as"
        value={answer.listKind}
        groups={[
          {
            name: "",
            options: answer.listKinds.map(({ kind, meaning }) => ({
              id: kind,
              name: kind,
              meaning,
            })),
          },
        ]}
        onChange={(listKind) => onOptions({ ...options, listKind })}
      />
      <TextBox
        label="Vessel, if no column says"
        placeholder="as in the rows"
        value={options.vessel ?? ""}
        onChange={(vessel) =>
          onOptions(vessel === "" ? without(options, "vessel") : { ...options, vessel })
        }
      />
      <TextBox
        label="Supplier, if no column says"
        placeholder="as in the rows"
        value={options.supplier ?? ""}
        onChange={(supplier) =>
          onOptions(supplier === "" ? without(options, "supplier") : { ...options, supplier })
        }
      />
      <Choice
        label="Fill down merged cells of"
        value={options.fillDown?.[0] ?? "none"}
        groups={[
          {
            name: "",
            options: [
              { id: "none", name: "no column" },
              ...answer.columns.map(({ header }) => ({ id: header, name: header })),
            ],
          },
        ]}
        onChange={(column) =>
          onOptions(
            column === "none" ? without(options, "fillDown") : { ...options, fillDown: [column] },
          )
        }
      />
      <Choice
        label="Currency, if no price says"
        value={options.currency ?? "auto"}
        groups={[
          {
            name: "",
            options: [
              { id: "auto", name: "as found" },
              ...currencies.map((code) => ({ id: code, name: code })),
            ],
          },
        ]}
        onChange={(currency) =>
          onOptions(currency === "auto" ? without(options, "currency") : { ...options, currency })
        }
      />
      <Choice
        label="Dates are written"
        value={options.dateOrder ?? "auto"}
        groups={[
          {
            name: "",
            options: [
              { id: "auto", name: "as found" },
              { id: "dmy", name: "day first" },
              { id: "mdy", name: "month first" },
            ],
          },
        ]}
        onChange={(order) =>
          onOptions(
            order === "dmy" || order === "mdy"
              ? { ...options, dateOrder: order }
              : without(options, "dateOrder"),
          )
        }
      />
      <Choice
        label="Decimal sign"
        value={options.decimal ?? "auto"}
        groups={[
          {
            name: "",
            options: [
              { id: "auto", name: "as found" },
              { id: ".", name: "point" },
              { id: ",", name: "comma" },
            ],
          },
        ]}
        onChange={(sign) =>
          onOptions(
            sign === "." || sign === ","
              ? { ...options, decimal: sign }
              : without(options, "decimal"),
          )
        }
      />
    </div>
  );
}
