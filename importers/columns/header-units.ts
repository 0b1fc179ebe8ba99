import { currencyOf } from "../cells/currencies.ts";
import { writtenUnit } from "../cells/units.ts";
import { headerForms } from "../matching/header-likeness.ts";
import type { Target } from "../targets.ts";

/** The unit a header names for a field: "Weight (g)", "Gewicht in g", "Weight g"; undefined if none. */
export function headerUnit(header: string, target: Target): string | undefined {
  if (target.unit === undefined || target.unit === "1") return undefined;
  const forms = headerForms(header);
  const places = [forms.aside, target.unit === "piece" ? "" : forms.last];
  return places.find(
    (place) => place !== "" && writtenUnit(target.unit ?? "1", place) !== undefined,
  );
}

/** The currency a header names: "Price (EUR)", "Preis €". */
export function headerCurrency(
  header: string,
  given: string | undefined,
): { readonly currency: string; readonly isPresumed: boolean } | undefined {
  const forms = headerForms(header);
  // Elsewhere in the name only capitals count: "all", "top" and "try" are words as well as currencies.
  const others = header.split(/[\s()[\]/,]+/).filter((word) => word === word.toUpperCase());
  for (const place of [forms.aside, forms.last, ...others]) {
    if (place === "") continue;
    const means = currencyOf(place);
    if (means.kind === "one") return { currency: means.currency, isPresumed: false };
    if (means.kind === "shared" && place.length <= 2) {
      if (given !== undefined && means.among.includes(given)) {
        return { currency: given, isPresumed: false };
      }
      if (place === "$") return { currency: "USD", isPresumed: true };
    }
  }
  return undefined;
}
