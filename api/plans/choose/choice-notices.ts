import type { ChooseAnswer, ChooseRequest } from "../../contract/choose.contract.ts";
import { kitNotices } from "../kit/kit-notices.ts";
import { needWords } from "./choice-words.ts";
import type { WeighedCandidate, Weighing } from "./weigh-candidate.ts";

type Notice = ChooseAnswer["notices"][number];

/** What the reader must know about how a choice was weighed. */
export function choiceNotices(
  weighing: Weighing,
  weighed: readonly WeighedCandidate[],
  imagined: readonly string[],
  position: ChooseRequest["position"],
): Notice[] {
  const { scene, kits, before, snapshot, passage } = weighing;
  const notices: Notice[] = imagined.map((text) => ({ code: "imagined", text }));
  const add = (code: string, text: string): void => {
    notices.push({ code, text });
  };
  const inherited = scene.needs.filter(({ from }) => from === "gear fitted now");
  if (inherited.length > 0) {
    add(
      "needs-from-gear",
      `The position states no needs of its own for these, so what is fitted there now sets them: ${inherited.map(needWords).join("; ")}.`,
    );
  }
  if (scene.needs.length === 0) {
    add(
      "needs-none",
      `No need is stated beyond being a ${scene.category}, so every make of that kind is weighed. State what it must bear, such as working load or voltage, or check each make against its duty.`,
    );
  }
  if (position !== undefined) {
    for (const text of unsaidUse(weighing, weighed, position)) add("use-unsaid", text);
  }
  const unpriced = weighed.filter(({ figures }) => figures.priceQuoted === null);
  if (unpriced.length > 0) {
    add(
      "price-unknown",
      `No price is known for ${unpriced.map(({ figures }) => figures.model.name).join(", ")}. Give one to rank ${unpriced.length === 1 ? "it" : "them"}.`,
    );
  }
  const foreign = new Set(
    weighed.flatMap(({ figures, priceEach }) =>
      figures.priceQuoted !== null && priceEach === undefined ? [figures.priceQuoted.currency] : [],
    ),
  );
  for (const currency of foreign) {
    add(
      "currency-without-rate",
      `Prices in ${currency} cannot be set against ${kits.currency} without a rate. Say what one ${currency} is worth in ${kits.currency}.`,
    );
  }
  if (before.cost === undefined) {
    add(
      "today-infeasible",
      "With the gear fitted now no stock of spares reaches the targets, so the kits are given whole and not against today's.",
    );
  }
  if (!before.footprint.suppliersProven) {
    add("suppliers-unproven", "The least number of suppliers is the best found, not proven.");
  }
  if (weighing.robbing) {
    add(
      "robbing",
      "A position served by two makes lends no parts in the sizing of kits, as one make alone does; that is part of what a second make costs.",
    );
  }
  add(
    "equal-spend-by-piece",
    "Kits are bought as they are sold, in packs and service kits. Only survival at equal spend is reckoned by the piece: the money is what today's kit costs piece by piece.",
  );
  const silent = new Set(["hours-unknown", "service-without-interval"]);
  return [
    ...notices,
    ...kitNotices(snapshot, before.kit, passage).filter(({ code }) => !silent.has(code)),
  ];
}

/** Rates that hang on how much a new position is used, where that is not said. */
function unsaidUse(
  { snapshot }: Weighing,
  weighed: readonly WeighedCandidate[],
  { hoursPerDay, operationsPerDay }: NonNullable<ChooseRequest["position"]>,
): string[] {
  const { uses } = snapshot;
  const [perHours, perOperations] = [1, 3];
  const has = (basis: number): boolean =>
    weighed.some(({ model }) =>
      uses.rateBasis.subarray(uses.start[model], uses.start[model + 1]).includes(basis),
    );
  const hasLife = weighed.some(({ model }) =>
    uses.meanLifeHours
      .subarray(uses.start[model], uses.start[model + 1])
      .some((life) => !Number.isNaN(life)),
  );
  return [
    ...(operationsPerDay === undefined && has(perOperations)
      ? [
          "No operations a day are given for the new position, so parts whose failures are counted by operations are not provided for. Say how many it will do.",
        ]
      : []),
    ...(hoursPerDay === undefined && (has(perHours) || hasLife)
      ? [
          "No running hours a day are given for the new position, so it is taken to run all day. Say how many it will run.",
        ]
      : []),
  ];
}
