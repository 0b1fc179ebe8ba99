/** What a picture consists of: plain data that React draws as SVG and tests read as text. */
export type Mark =
  | {
      readonly kind: "rect";
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly className: string;
    }
  | {
      readonly kind: "line";
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
      readonly className: string;
    }
  | { readonly kind: "path"; readonly d: string; readonly className: string }
  | {
      readonly kind: "circle";
      readonly cx: number;
      readonly cy: number;
      readonly r: number;
      readonly className: string;
    }
  | {
      readonly kind: "text";
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly className: string;
      readonly anchor?: "start" | "middle" | "end";
      /** Degrees clockwise about the anchor point. */
      readonly turn?: number;
    };

export interface Scene {
  readonly width: number;
  readonly height: number;
  /** The finding in words: the caption, and the picture's name for a screen reader. */
  readonly words: string;
  readonly marks: readonly Mark[];
}
