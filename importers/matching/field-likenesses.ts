import type { ListKind } from "../list-kinds.ts";
import { type Target, targets } from "../targets.ts";
import { type HeaderForms, nameLikeness } from "./header-likeness.ts";

/** Names of the thing a label stands for ("supplier", "vendor"), which people put before its properties. */
const entityNames = (owner: string): readonly string[] =>
  targets.get(`${owner}.name`)?.names ??
  {
    Part: ["part", "spare", "teil", "piece", "pieza", "onderdeel"],
    FittedItem: ["item", "gear", "equipment", "unit"],
    Model: targets.get("Model.designation")?.names ?? [],
  }[owner] ??
  [];

/** Weight of a name from another language than the file's: enough to decide between equals, no more. */
const foreignWeight = 0.93;

/** The language in which most headers are declared names, if one stands out; "designation" means different things. */
export function languageOf(forms: readonly HeaderForms[]): string | undefined {
  const votes = new Map<string, number>();
  for (const { whole, base } of forms) {
    const languages = new Set<string>();
    for (const { languagesOf } of targets.values()) {
      for (const language of languagesOf.get(whole) ?? languagesOf.get(base) ?? []) {
        languages.add(language);
      }
    }
    for (const language of languages) {
      votes.set(language, (votes.get(language) ?? 0) + 1 / languages.size);
    }
  }
  const [first, second] = [...votes].sort((a, b) => b[1] - a[1]);
  return first !== undefined && first[1] > (second?.[1] ?? 0) * 1.2 ? first[0] : undefined;
}

/** How like the names of fields headers are; what the kind of list plays no part in is worked out once for all kinds. */
export class FieldLikenesses {
  readonly language: string | undefined;
  readonly #known = new Map<HeaderForms, Map<Target, number>>();

  constructor(language: string | undefined) {
    this.language = language;
  }

  #plain(forms: HeaderForms, target: Target): number {
    let ofForms = this.#known.get(forms);
    if (ofForms === undefined) {
      ofForms = new Map();
      this.#known.set(forms, ofForms);
    }
    let value = ofForms.get(target);
    if (value === undefined) {
      value = plainLikeness(forms, target, this.language);
      ofForms.set(target, value);
    }
    return value;
  }

  /** From 0 to 1: how surely a header means a field in a list of this kind. */
  in(kind: ListKind, forms: HeaderForms, target: Target): number {
    let best = this.#plain(forms, target);
    const consider = (name: string, weight: number): void => {
      const value = nameLikeness(forms, name) * weight;
      if (value > best) best = value;
    };
    for (const name of kind.named?.[target.id] ?? []) consider(name, 0.98);
    for (const name of kind.alsoNamed[target.id] ?? []) consider(name, 0.75);
    for (const other of kind.takesNamesOf[target.id] ?? []) {
      for (const name of targets.get(other)?.names ?? []) consider(name, 0.75);
    }
    // "Weight g": a unit or currency may follow without brackets.
    if (
      best === 0 &&
      forms.butLast !== "" &&
      (target.unit !== undefined || target.kind === "money")
    ) {
      if (target.names.includes(forms.butLast) && target.unit !== "piece") best = 0.9;
    }
    return best;
  }
}

function plainLikeness(forms: HeaderForms, target: Target, language: string | undefined): number {
  let best = 0;
  for (const name of target.names) {
    const isForeign =
      language !== undefined && target.languagesOf.get(name)?.has(language) !== true;
    best = Math.max(best, nameLikeness(forms, name) * (isForeign ? foreignWeight : 1));
  }
  if (best < 0.9) {
    for (const entity of entityNames(target.owner)) {
      if (!forms.base.includes(entity)) continue;
      const rest = ` ${forms.base} `.replace(` ${entity} `, " ").trim();
      if (rest !== "" && rest !== forms.base && target.names.includes(rest))
        best = Math.max(best, 0.9);
    }
  }
  return best;
}
