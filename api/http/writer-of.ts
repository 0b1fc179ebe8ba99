/** Who is written in the journal for what is done over HTTP, and when. */
export const writerOf = (now: Date): { readonly who: string; readonly at: string } => ({
  who: "screen",
  at: now.toISOString(),
});
