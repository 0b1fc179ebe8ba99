/** Deepest a chart can still tell. */
const deepest = 6;

/** Depth of nines: -log10(1 - p), capped where a chart can no longer tell. */
export const depthOf = (p: number): number => Math.min(deepest, -Math.log10(Math.max(1e-9, 1 - p)));
