import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { type NeedName, needNames, needOf } from "../../../graph-schema/needs.ts";
import { FigureBox } from "../../components/figure-box.tsx";
import { needLabel, needText, needWithUnit, readNeed } from "../../components/need-units.ts";
import { usePreferences } from "../../data/preferences.ts";
import { numberOf } from "../records/record-columns.ts";
import type { Needs } from "./choice-question.ts";

/** What the makes on file of a kind of gear state, by need: the least and the most. */
export type KindNeeds = ReadonlyMap<NeedName, { readonly least: number; readonly most: number }>;

export function kindNeeds(models: readonly RecordDocument[]): KindNeeds {
  const found = new Map<NeedName, { least: number; most: number }>();
  for (const name of needNames) {
    const figures = models.flatMap((model) => numberOf(model, name) ?? []);
    if (figures.length > 0)
      found.set(name, { least: Math.min(...figures), most: Math.max(...figures) });
  }
  return found;
}

/** Figures of what gear must bear, or can: those that matter for its kind first, the others folded away. */
export function NeedsFields({
  needs,
  kind,
  asks,
  onChange,
}: {
  readonly needs: Needs;
  readonly kind: KindNeeds;
  /** Whether these are asked of gear; else they say what one make can do. */
  readonly asks: boolean;
  readonly onChange: (needs: Needs) => void;
}) {
  const { units } = usePreferences();
  const isNear = (name: NeedName) => kind.has(name) || needs[name] !== undefined;
  const near = kind.size === 0 ? needNames : needNames.filter(isNear);
  const far = needNames.filter((name) => !near.includes(name));
  const hintOf = (name: NeedName): string | undefined => {
    const range = kind.get(name);
    const rule = asks ? (needOf(name).rule === "equal" ? "exactly this" : "at least this") : "";
    if (range === undefined) return rule === "" ? undefined : rule;
    const onFile =
      range.least === range.most
        ? `on file ${needWithUnit(name, range.most, units)}`
        : `on file ${needText(name, range.least, units)} to ${needWithUnit(name, range.most, units)}`;
    return rule === "" ? onFile : `${rule}; ${onFile}`;
  };
  const field = (name: NeedName) => {
    const value = needs[name];
    return (
      <FigureBox
        key={name}
        label={needLabel(name, units)}
        shown={value === undefined ? "" : needText(name, value, units)}
        hint={hintOf(name)}
        placeholder={asks ? "any" : "not stated"}
        read={(text) => readNeed(name, text, units)}
        onChange={(next) => {
          const { [name]: _, ...rest } = needs;
          onChange(next === undefined ? rest : { ...rest, [name]: next });
        }}
      />
    );
  };
  return (
    <>
      <div className="settings needs">{near.map(field)}</div>
      {far.length > 0 && (
        <details>
          <summary>{asks ? "Other things it could have to meet" : "Other figures"}</summary>
          <div className="settings needs">{far.map(field)}</div>
        </details>
      )}
    </>
  );
}
