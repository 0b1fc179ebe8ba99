/** What a group of relationships is called from one end of it: type, then whether it leads away from the record. */
const titles: Readonly<Record<string, readonly [out: string, inward: string]>> = {
  FITTED_ON: ["Fitted on", "Gear fitted"],
  IS_MODEL: ["Model", "Fitted items"],
  SERVES: ["Functions it serves", "Served by"],
  REQUIRED_ON: ["Required on", "Required functions"],
  MADE_BY: ["Made by", "Makes"],
  USES: ["Parts it takes", "Where it is used"],
  CONTAINS: ["Parts in this kit", "In service kits"],
  INTERCHANGES_WITH: ["Interchanges with", "Interchanges with"],
  SUPERSEDED_BY: ["Superseded by", "Supersedes"],
  OFFERS: ["Sells", "Who sells it"],
  STOWED_IN: ["Stowed in", "What is stowed here"],
  LOT_OF: ["Part", "Where it is stowed"],
  IS_WITHIN: ["Within", "Lockers within"],
  SERVICE_OF: ["Service of", "Services"],
  CONSUMES: ["Parts it uses up", "Used up by services"],
  SERVICED: ["Services done", "Done on"],
  SAILED_BY: ["Sailed by", "Crossings"],
  ORDERED_FROM: ["Ordered from", "Orders"],
};

export const linkTitle = (type: string, direction: "out" | "in"): string =>
  titles[type]?.[direction === "out" ? 0 : 1] ?? type;
