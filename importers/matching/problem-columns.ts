import { normaliseHeader } from "../normalise-header.ts";

/** Columns put beside rejected rows; passed over when the corrected file is imported again. */
export const problemColumns = [
  "Problem",
  "Problem column",
  "Problem value",
  "Problem remedy",
  "Problem line",
] as const;

const names: ReadonlySet<string> = new Set(problemColumns.map(normaliseHeader));

export const isProblemColumn = (header: string): boolean => names.has(normaliseHeader(header));
