/** Shapes that tell categories apart where colour cannot. */
export const signShapes = ["disc", "square", "triangle", "lozenge"] as const;
export type SignShape = (typeof signShapes)[number];

const colours = 6;

/** The colour (1 to 6) and shape of the n-th category: 24 signs before any comes again; the same on every page. */
export const categorySign = (
  place: number,
): { readonly shape: SignShape; readonly colour: number } => ({
  colour: 1 + (place % colours),
  shape: signShapes[Math.floor(place / colours) % signShapes.length] ?? "disc",
});
