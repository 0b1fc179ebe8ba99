import { Problem } from "../../errors/problem.ts";

export const storeOccupied = (place: string, held: number): Problem =>
  new Problem(
    "store-occupied",
    `A backup is restored into an empty graph; ${place} holds a graph of ${held} changes already. Nothing was changed. Name an empty database.`,
    { facts: { sequence: held } },
  );

export const leadsNowhere = (subject: string): Problem =>
  new Problem(
    "input-invalid",
    `In a backup both ends of a relationship stand before it; those of ${subject} do not. Nothing was restored. Use another copy of the backup.`,
    { facts: { subject } },
  );
