/** One measured figure of a bench, with the target it is held to. */
export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** The target in words ("≥ 50", "< 2"). */
  readonly target: string;
  readonly meets: boolean;
}
