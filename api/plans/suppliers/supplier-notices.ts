import type { SuppliersAnswer } from "../../contract/suppliers.contract.ts";
import { plural } from "../words.ts";

interface Facts {
  readonly modelsWithoutList: readonly string[];
  readonly itemsOfUnknownModel: number;
  readonly itemsWithNothingToSpare: number;
  readonly withoutContact: readonly string[];
  readonly offeringNothing: readonly string[];
  /** What is to be said of interchanges not used. */
  readonly interchange: SuppliersAnswer["notices"];
  readonly isProven: boolean;
}

const listed = (names: readonly string[]): string =>
  `${names.slice(0, 6).join(", ")}${names.length > 6 ? ` and ${names.length - 6} more` : ""}`;

/** What the reader must know of how far the figures reach. */
export function supplierNotices(facts: Facts): SuppliersAnswer["notices"] {
  const notices: SuppliersAnswer["notices"] = [];
  const add = (when: boolean, code: string, text: () => string): void => {
    if (when) notices.push({ code, text: text() });
  };
  add(
    facts.modelsWithoutList.length > 0,
    "parts-list-unknown",
    () =>
      `No parts list is known for ${listed(facts.modelsWithoutList)}: who covers them is unknown, and they are not counted.`,
  );
  add(
    facts.itemsOfUnknownModel > 0,
    "model-unknown",
    () =>
      `${plural(facts.itemsOfUnknownModel, "fitted item")} ${facts.itemsOfUnknownModel === 1 ? "has" : "have"} no model, so what they take is unknown and they are not counted.`,
  );
  add(
    facts.itemsWithNothingToSpare > 0,
    "nothing-to-spare",
    () =>
      `${plural(facts.itemsWithNothingToSpare, "fitted item")} ${facts.itemsWithNothingToSpare === 1 ? "has" : "have"} a parts list with nothing that can be replaced at sea: not counted.`,
  );
  add(
    facts.withoutContact.length > 0,
    "contact-unknown",
    () =>
      `No contact is known for ${listed(facts.withoutContact)}: find one before counting on them.`,
  );
  add(
    facts.offeringNothing.length > 0,
    "offers-nothing",
    () => `${listed(facts.offeringNothing)} offer nothing that this gear can take at sea.`,
  );
  notices.push(...facts.interchange);
  add(
    !facts.isProven,
    "not-proven",
    () =>
      "Some of the choices below are the best found, not proven best: the bound beside each says how much better another could be.",
  );
  return notices;
}
