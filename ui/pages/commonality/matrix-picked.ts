/** What of the matrix is pointed at or picked. */
export type Picked =
  | { readonly kind: "none" }
  | { readonly kind: "model"; readonly index: number }
  | { readonly kind: "part"; readonly index: number };
