import type { CommonalityAnswer } from "../../../api/contract/commonality.contract.ts";

type Indices = CommonalityAnswer["whole"];

/** One column of the index table: what it is called, what it says in plain words. */
export interface IndexColumn {
  readonly key: keyof Indices;
  readonly name: string;
  readonly meaning: string;
  readonly isRatio: boolean;
  /** How it is reckoned, in words. */
  readonly formula: string;
}

export const indexColumns: readonly IndexColumn[] = [
  {
    key: "models",
    name: "Models",
    meaning: "Different makes and designations fitted.",
    isRatio: false,
    formula: "Counted: each model fitted at least once that has a parts list on file.",
  },
  {
    key: "items",
    name: "Fitted",
    meaning: "Pieces of gear fitted, of all those models.",
    isRatio: false,
    formula: "Counted: the positions in which one of those models is fitted.",
  },
  {
    key: "distinctParts",
    name: "Parts",
    meaning: "Different parts those models take between them.",
    isRatio: false,
    formula: "Counted from the parts lists; parts that interchange count once.",
  },
  {
    key: "usedByOneModelOnly",
    name: "Lone parts",
    meaning: "Parts that one model only takes: each is a spare nothing else can use.",
    isRatio: false,
    formula: "Of the different parts, those that stand on one model's list alone.",
  },
  {
    key: "degreeOfCommonality",
    name: "Uses per part",
    meaning:
      "Models that take the average part. 1 means nothing is shared; the number of models means everything is.",
    isRatio: true,
    formula:
      "Lines of all parts lists over different parts: how many models the average part serves. Collier 1981.",
  },
  {
    key: "totalConstantCommonality",
    name: "Shared, 0 to 1",
    meaning: "The same between fixed ends: 0 nothing is shared, 1 every model takes the same part.",
    isRatio: true,
    formula: "One less (different parts less one) over (lines less one). Wacker and Treleven 1986.",
  },
  {
    key: "componentCommonality",
    name: "Alike, 0 to 1",
    meaning: "0 every model has parts of its own, 1 all models take the same set of parts.",
    isRatio: true,
    formula:
      "How many parts sharing saves, over the most it could save: as few parts as the model with most of them needs. Martin and Ishii 1997.",
  },
  {
    key: "weightedCommonality",
    name: "By money",
    meaning:
      "Uses per part with dear and much-used parts counting for more; blank where no price is known.",
    isRatio: true,
    formula:
      "As uses per part, each part weighed by its price and the pieces used of it. Jiao and Tseng 2000.",
  },
  {
    key: "distinctKits",
    name: "Kits",
    meaning: "Different sets of spares, models with the same set counted once.",
    isRatio: false,
    formula: "Each model's set of parts that can be fitted at sea; equal sets count once.",
  },
  {
    key: "maximalKits",
    name: "Largest kits",
    meaning: "Kits that no other kit contains: carrying these serves every model.",
    isRatio: false,
    formula: "Of the kits, those whose set of parts lies within no other's.",
  },
];
