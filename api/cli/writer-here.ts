import type { Writer } from "../plans/records/write-record.ts";

/** Who is written in the journal for what is done at the command line, and when. */
export const writerHere = (): Writer => ({ who: "command line", at: new Date().toISOString() });
