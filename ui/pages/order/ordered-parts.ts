import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { Refusal } from "../../data/ask.ts";
import { showRecord } from "../../data/records-client.ts";
import { type Answer, useAnswer } from "../../data/use-answer.ts";
import { numberOf, textOf } from "../records/record-columns.ts";

/** A part of a kept order with the pieces ordered of it. */
export interface OrderedPart {
  readonly id: string;
  readonly partNumber: string;
  readonly description: string;
  readonly pieces: number;
  readonly perishes: boolean;
}

/** Pieces by part; an order may name a part on several lines. */
function piecesOf(order: RecordDocument): ReadonlyMap<string, number> {
  const pieces = new Map<string, number>();
  const lines = order.properties["lines"];
  for (const line of Array.isArray(lines) ? (lines as readonly unknown[]) : []) {
    if (typeof line !== "object" || line === null) continue;
    if (!("part" in line) || !("quantity" in line)) continue;
    const part = String(line.part);
    pieces.set(part, (pieces.get(part) ?? 0) + Number(line.quantity));
  }
  return pieces;
}

async function orderedPart(id: string, pieces: number, signal: AbortSignal): Promise<OrderedPart> {
  try {
    const { record } = await showRecord(id, signal);
    return {
      id,
      partNumber: textOf(record, "partNumber"),
      description: textOf(record, "description"),
      pieces,
      perishes: numberOf(record, "shelfLifeMonths") !== undefined,
    };
  } catch (error) {
    if (!(error instanceof Refusal) || error.problem.status !== 404) throw error;
    return {
      id,
      partNumber: "Taken out",
      description: "since it was ordered",
      pieces,
      perishes: false,
    };
  }
}

/** What an order asks for, each part as it is known now. */
export function useOrderedParts(order: RecordDocument): Answer<readonly OrderedPart[]> {
  const pieces = piecesOf(order);
  return useAnswer(`ordered ${JSON.stringify([...pieces])}`, (signal) =>
    Promise.all([...pieces].map(([id, count]) => orderedPart(id, count, signal))),
  );
}
