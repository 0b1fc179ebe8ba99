import type { OrderAnswer, OrderRequest } from "../contract/order.contract.ts";
import { Problem } from "../errors/problem.ts";
import { dayOfIso, isoOfDay } from "../scoring/aboard/calendar.ts";
import { leastOrder } from "../scoring/order/least-order.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { nodeByWord } from "./choose-scope.ts";
import { chooseScene } from "./kit/choose-scene.ts";
import { kitNotices } from "./kit/kit-notices.ts";
import { kitSettings } from "./kit/kit-settings.ts";
import { provideKit } from "./kit/provide-kit.ts";
import { bindOrder, inCurrency, type NamedTerms } from "./order/bind-order.ts";
import { ordersSideBySide } from "./order/compare-orders.ts";
import { openOrdersNotice } from "./order/open-orders.ts";
import { orderSheets } from "./order/order-sheets.ts";
import { orderSentence, unmetWords } from "./order/order-words.ts";
import { solveInThread } from "./solve/solve-in-thread.ts";
import { besideBefore } from "./what-if/beside-before.ts";

const usualSeconds = 20;

export interface OrderWork {
  readonly progress?: (
    seconds: number,
    best: number | undefined,
    bound: number | undefined,
  ) => void;
  readonly signal?: AbortSignal;
}

/**
 * What to order from whom, so that the kit of a request is aboard in time at least cost: prices, delivery, duty,
 * packs and least orders together, proven least.
 *
 * @param today ISO day, the caller's clock
 * With `whatIf` the graph is as imagined, its figures beside those of the graph as it is.
 * Errors: those of `planKit`; `not-found` (supplier); `input-invalid` (needed-by before ordering); `currency-mixed`
 * (terms in a currency without a rate). Stops with the signal's reason. What cannot be had is part of the answer.
 */
export async function orderKit(
  store: GraphStore,
  request: OrderRequest,
  today: string,
  work: OrderWork = {},
): Promise<OrderAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return orderAsItIs(store, asked, today, work);
  return besideBefore(
    store,
    whatIf,
    (from) => orderAsItIs(from, asked, today, work),
    ordersSideBySide,
  );
}

async function orderAsItIs(
  store: GraphStore,
  request: OrderRequest,
  today: string,
  work: OrderWork,
): Promise<OrderAnswer> {
  const { orderedOn = today, neededBy, unknownLead, terms, without, ratesAsOf, ...asked } = request;
  const seconds = asked.seconds ?? usualSeconds;
  const orderedDay = dayOfIso(orderedOn);
  const daysAllowed = neededBy === undefined ? undefined : dayOfIso(neededBy) - orderedDay;
  if (daysAllowed !== undefined && daysAllowed < 0) {
    throw new Problem(
      "input-invalid",
      `Parts cannot be needed before they are ordered; received needed by ${neededBy}, ordered ${orderedOn}. Give a later day.`,
      { places: [{ pointer: "/neededBy", detail: `before ${orderedOn}` }] },
    );
  }
  const { chosen, snapshot, vessel, vesselName, crossingName } = await chooseScene(
    store,
    asked,
    today,
  );
  const rates = asked.rates ?? {};
  const kit = await provideKit(snapshot, vessel, chosen.passage, kitSettings(asked), {
    seconds,
    ...(work.signal === undefined ? {} : { signal: work.signal }),
  });
  const { currency } = kit;
  const money = { currency, rates };
  const bound = bindOrder(snapshot, kit, {
    ...money,
    terms: await termsOf(store, snapshot, terms ?? [], money),
    without: new Set(
      await Promise.all((without ?? []).map((word) => supplierRow(store, snapshot, word))),
    ),
    daysAllowed,
    unknownLead: unknownLead ?? false,
  });
  const { progress, signal } = work;
  const order = await leastOrder(bound.problem, solveInThread, {
    seconds,
    ...(signal === undefined ? {} : { signal }),
    ...(progress === undefined
      ? {}
      : { progress: (at) => progress(at.seconds, at.best, at.bound) }),
  });
  const wanted = new Set(
    kit.rows
      .filter((row) => row.buy > 0)
      .flatMap((row) => kit.classes.members[row.demand.partClass] ?? [])
      .map((part) => String(snapshot.parts.id[part] ?? "")),
  );
  const onOrder = await openOrdersNotice(store, chosen.vessel.id, wanted);
  const inMoney = (minor: number) => ({ minor, currency });
  const shownPart = (partClass: number): number => {
    const members = kit.classes.members[partClass] ?? [];
    return members.find((part) => snapshot.parts.description[part] !== "") ?? members[0] ?? -1;
  };
  const facts = {
    vessel: { id: chosen.vessel.id, name: vesselName },
    crossing: {
      name: crossingName,
      departs: isoOfDay(chosen.passage.departsDay),
    },
    status: order.status,
    currency,
    ...(ratesAsOf === undefined ? {} : { ratesAsOf }),
    orderedOn,
    ...(neededBy === undefined ? {} : { neededBy }),
    total: inMoney(order.totalMinor),
    lowerBound: inMoney(order.lowerBoundMinor),
    gap: order.gap,
    ...(order.eachAlone === undefined ? {} : { eachAlone: inMoney(order.eachAlone.totalMinor) }),
    sheets: orderSheets(snapshot, bound, order, currency, orderedDay, request.units ?? "metric"),
    unmet: bound.unmet.map(({ partClass, pieces, why, daysLate, supplier }) => {
      const part = shownPart(partClass);
      return {
        part: {
          id: String(snapshot.parts.id[part] ?? ""),
          name: snapshot.parts.partNumber[part] ?? "",
        },
        description: snapshot.parts.description[part] ?? "",
        pieces,
        why,
        ...(daysLate === undefined ? {} : { daysLate }),
        words: unmetWords(why, snapshot.suppliers.name[supplier] ?? "", daysLate, currency),
      };
    }),
    notices: [
      ...chosen.notices,
      ...kitNotices(snapshot, kit, chosen.passage).filter(({ code }) => code !== "sold-in-packs"),
      ...(onOrder === undefined ? [] : [onOrder]),
      ...orderNotices(terms === undefined, Object.keys(rates).length > 0, ratesAsOf),
    ],
    cautions: [...cautions],
  };
  return { ...facts, sentence: orderSentence(facts) };
}

function orderNotices(
  isWithoutTerms: boolean,
  hasRates: boolean,
  ratesAsOf: string | undefined,
): { code: string; text: string }[] {
  const notices: { code: string; text: string }[] = [];
  if (isWithoutTerms) {
    notices.push({
      code: "terms-none",
      text: "No delivery charges, least orders or duty were given, so the order counts prices alone: type in what each supplier asks.",
    });
  }
  if (hasRates && ratesAsOf === undefined) {
    notices.push({
      code: "rates-undated",
      text: "The exchange rates carry no date: say of which day they are, and check them before paying.",
    });
  }
  return notices;
}

async function supplierRow(store: GraphStore, snapshot: Snapshot, word: string): Promise<number> {
  const { id } = await nodeByWord(store, "Supplier", word);
  return snapshot.suppliers.id.indexOf(id);
}

async function termsOf(
  store: GraphStore,
  snapshot: Snapshot,
  typed: NonNullable<OrderRequest["terms"]>,
  money: { readonly currency: string; readonly rates: Readonly<Record<string, number>> },
): Promise<ReadonlyMap<number, NamedTerms>> {
  const found = new Map<number, NamedTerms>();
  for (const [at, terms] of typed.entries()) {
    const row = await supplierRow(store, snapshot, terms.supplier);
    const code = terms.currency ?? money.currency;
    const convert = (minor: number | undefined): number | undefined => {
      if (minor === undefined) return undefined;
      const value = inCurrency(minor, code, money);
      if (value !== undefined) return value;
      throw new Problem(
        "currency-mixed",
        `The terms of ${snapshot.suppliers.name[row] ?? terms.supplier} are in ${code} and the order in ${money.currency}; no rate was given. Give what one ${code} is worth, or the terms in ${money.currency}.`,
        { places: [{ pointer: `/terms/${at}/currency`, detail: `no rate for ${code}` }] },
      );
    };
    found.set(row, {
      deliveryMinor: convert(terms.deliveryMinor) ?? 0,
      freeFromMinor: convert(terms.freeFromMinor),
      minimumMinor: convert(terms.minimumMinor) ?? 0,
      dutyPercent: terms.dutyPercent ?? 0,
    });
  }
  return found;
}
