/** How a failure is to be read: by the caller's exit code (command line) or status (HTTP edge). */
export type ProblemKind = "invalid" | "not-found" | "conflict" | "unavailable" | "bug";

/** Every error the program can raise, by code. The message says the rule; the caller adds value and remedy. */
export const problemCatalogue = {
  "input-invalid": { kind: "invalid", title: "The input does not follow the rule" },
  "file-empty": { kind: "invalid", title: "The file holds no rows" },
  "file-binary": { kind: "invalid", title: "The file is not a text table" },
  "file-too-large": { kind: "invalid", title: "The file is larger than the limit" },
  "file-unreadable": { kind: "not-found", title: "The file cannot be read" },
  "columns-unmatched": {
    kind: "invalid",
    title: "The columns cannot be matched to anything we know",
  },
  "target-invalid": {
    kind: "invalid",
    title: "The target is not a probability strictly between 0 and 1",
  },
  "crossing-invalid": { kind: "invalid", title: "The crossing's days are out of range" },
  "rate-invalid": { kind: "invalid", title: "The rate is out of range" },
  "contents-circular": { kind: "invalid", title: "A service kit contains itself" },
  "time-up": { kind: "unavailable", title: "No answer was found in the time allowed" },
  "solver-failed": { kind: "unavailable", title: "The solver gave up" },
  "supersession-cycle": {
    kind: "invalid",
    title: "Parts supersede each other in a circle",
  },
  "currency-mixed": {
    kind: "invalid",
    title: "Prices are in several currencies and no rate is given",
  },
  "not-found": { kind: "not-found", title: "Nothing by that name is in the graph" },
  "write-stale": {
    kind: "conflict",
    title: "The record was changed by someone else since it was read",
  },
  "key-taken": { kind: "conflict", title: "Another record already has that name" },
  "has-dependants": { kind: "conflict", title: "Other records depend on this one" },
  "undo-blocked": { kind: "conflict", title: "Later changes stand on what this would undo" },
  "store-busy": { kind: "unavailable", title: "The database is in use by another program" },
  "store-damaged": { kind: "unavailable", title: "The database file cannot be used" },
  "store-full": { kind: "unavailable", title: "The disk is full; nothing was changed" },
  "store-occupied": { kind: "conflict", title: "The graph is not empty" },
  "backup-damaged": { kind: "invalid", title: "The file is not a whole backup" },
  "store-unreachable": { kind: "unavailable", title: "The database server does not answer" },
  "store-refused": { kind: "unavailable", title: "The database server does not let us in" },
  "store-settings": { kind: "invalid", title: "The settings of the shared graph are incomplete" },
  "store-newer": { kind: "unavailable", title: "The database was written by a newer version" },
  "access-refused": {
    kind: "invalid",
    title: "The request does not come from this program's own page",
  },
  "method-refused": { kind: "invalid", title: "The address does not take that method" },
  "media-type-refused": {
    kind: "invalid",
    title: "The body is of a kind the address does not take",
  },
  "port-taken": { kind: "unavailable", title: "The port is in use by another program" },
  unexpected: { kind: "bug", title: "An unexpected failure in the program" },
} as const satisfies Record<string, { kind: ProblemKind; title: string }>;

export type ProblemCode = keyof typeof problemCatalogue;
