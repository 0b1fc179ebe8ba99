import { journalAndSearch } from "./0001-journal-and-search.ts";
import { changesAndCodes } from "./0002-changes-and-codes.ts";
import type { Migration } from "./migration.ts";

/** Every migration, by rising version. */
export const migrations: readonly Migration[] = [journalAndSearch, changesAndCodes];
