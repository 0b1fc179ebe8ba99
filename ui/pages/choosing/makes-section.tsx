import { Plus } from "lucide-react";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { ListReading, TypedModel } from "../../../api/contract/what-if.contract.ts";
import { moneyAmountText } from "../../components/figures.ts";
import { usePreferences } from "../../data/preferences.ts";
import { changeQuery } from "../../routing/route.ts";
import { idsIn } from "./choice-question.ts";
import { ListReadingShown } from "./list-reading.tsx";
import { draftOf, emptyDraft, keepDraft, keptDraft, type MakeDraft } from "./make-draft.ts";
import { MakeForm } from "./make-form.tsx";
import type { KindNeeds } from "./needs-fields.tsx";
import { readMakes, type TypedMake, tokenOf, writeMakes } from "./typed-makes.ts";

type Query = ReadonlyMap<string, string>;

const nameOf = (make: TypedModel | undefined): string =>
  make === undefined ? "A make kept on another device" : `${make.maker} ${make.designation}`;

const priceOf = ({ priceMinor, currency = "" }: TypedModel): string =>
  priceMinor === undefined
    ? "price not known"
    : `${moneyAmountText(priceMinor, currency)} ${currency}`;

/** One make that was typed in: what it is, how its lists were understood, edit and take out. */
function TypedLine({
  make,
  lists,
  onEdit,
  onOut,
}: {
  readonly make: TypedModel | undefined;
  readonly lists: readonly ListReading[];
  readonly onEdit: (make: TypedModel) => void;
  readonly onOut: () => void;
}) {
  const name = nameOf(make);
  return (
    <li>
      <div className="typed-head">
        <span>
          <strong>{name}</strong>{" "}
          <span className="part-description">
            {make === undefined
              ? "Type it in again here, or open this address where it was typed."
              : `${priceOf(make)}${make.partsCsv === undefined ? "; no parts list, so its kit is unknown, not nothing" : ""}`}
          </span>
        </span>
        <span className="typed-deeds">
          {make !== undefined && (
            <Button className="quiet" onPress={() => onEdit(make)}>
              Edit<span className="hidden"> {name}</span>
            </Button>
          )}
          <Button className="quiet" onPress={onOut}>
            Take out<span className="hidden"> {name}</span>
          </Button>
        </span>
      </div>
      {lists.map((reading) => (
        <ListReadingShown key={reading.list} reading={reading} />
      ))}
    </li>
  );
}

/** The makes to weigh: those on file, less those left out, and those typed in on the spot. */
export function MakesSection({
  query,
  category,
  onFile,
  kind,
  readings,
  currency,
}: {
  readonly query: Query;
  readonly category: string;
  /** Makes of the kind on file, by id and name. */
  readonly onFile: readonly { readonly id: string; readonly name: string }[];
  readonly kind: KindNeeds;
  readonly readings: readonly ListReading[];
  readonly currency: string;
}) {
  const { units } = usePreferences();
  const [draft, setDraft] = useState<MakeDraft | undefined>(keptDraft);
  const [gone, setGone] = useState<{ readonly make: TypedMake; readonly at: number }>();
  const makes = readMakes(query.get("makes"));
  const out = idsIn(query.get("out"));
  const edit = (next: MakeDraft | undefined) => {
    setDraft(next);
    keepDraft(next);
  };
  const put = (next: readonly { readonly token: string }[]) =>
    changeQuery({ makes: writeMakes(next) });
  const weigh = (make: TypedModel) => {
    const token = tokenOf(make);
    const instead = draft?.instead ?? "";
    const rest = makes.filter((one) => one.token !== token);
    put(
      rest.some((one) => one.token === instead)
        ? rest.map((one) => (one.token === instead ? { token } : one))
        : [...rest, { token }],
    );
    edit(undefined);
  };
  const takeOut = (make: TypedMake, at: number) => {
    setGone({ make, at });
    put(makes.filter((one) => one.token !== make.token));
  };
  const putBack = () => {
    if (gone === undefined) return;
    put(makes.toSpliced(gone.at, 0, gone.make));
    setGone(undefined);
  };
  const weighed = onFile.length - onFile.filter(({ id }) => out.includes(id)).length;
  return (
    <section aria-labelledby="weighed-title" className="off-paper">
      <h2 id="weighed-title">Makes to weigh</h2>
      <p>
        {onFile.length === 0
          ? `No ${category} is on file as a make.`
          : weighed === onFile.length
            ? `Every ${category} on file: ${onFile.map(({ name }) => name).join(", ")}.`
            : `${weighed} of ${onFile.length} on file that are a ${category}.`}
        {makes.length === 0 &&
          onFile.length < 2 &&
          " Type in the makes you think of, at least two."}
      </p>
      {out.length > 0 && (
        <ul className="picked" aria-label="Makes left out">
          {out.map((id) => {
            const name = onFile.find((one) => one.id === id)?.name ?? "a make no longer on file";
            return (
              <li key={id}>
                {name}, left out
                <Button
                  className="plain"
                  onPress={() => changeQuery({ out: out.filter((other) => other !== id).join() })}
                >
                  Weigh it again<span className="hidden"> {name}</span>
                </Button>
              </li>
            );
          })}
        </ul>
      )}
      {makes.length > 0 && (
        <ul className="typed-makes" aria-label="Makes typed in">
          {makes.map((one, at) =>
            one.token === draft?.instead ? null : (
              <TypedLine
                key={one.token}
                make={one.make}
                lists={readings.filter(({ model }) => model === nameOf(one.make))}
                onEdit={(make) => edit(draftOf(make, one.token, currency, units))}
                onOut={() => takeOut(one, at)}
              />
            ),
          )}
        </ul>
      )}
      <div role="status">
        {gone !== undefined && (
          <p className="deed">
            {nameOf(gone.make.make)} is taken out.
            <Button className="quiet" onPress={putBack}>
              Put it back
            </Button>
          </p>
        )}
      </div>
      {draft === undefined ? (
        <Button className="quiet" onPress={() => edit(emptyDraft(currency))}>
          <Plus size={18} aria-hidden="true" /> Type in a make
        </Button>
      ) : (
        <MakeForm
          draft={draft}
          kind={kind}
          onDraft={edit}
          onDone={weigh}
          onLeave={() => edit(undefined)}
        />
      )}
    </section>
  );
}
