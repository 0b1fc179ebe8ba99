/** Kinds of record in the plain words used on every page. */
const words: Readonly<Record<string, string>> = {
  FittedItem: "fitted item",
  RequiredFunction: "function",
  StockLot: "lot in a locker",
  ServiceTask: "service",
  USES: "part in a model",
  OFFERS: "supplier's offer",
  CONTAINS: "service kit",
  CONSUMES: "service task",
  INTERCHANGES_WITH: "interchange",
  SUPERSEDED_BY: "superseded",
};

/** "fitted item" for FittedItem, "part in a model" for USES. */
export const kindWord = (label: string): string =>
  words[label] ??
  label
    .replaceAll("_", " ")
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase();
