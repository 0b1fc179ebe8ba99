import highsModule, { type Highs } from "highs";

/** A 0-1 programme: rows are sums of coefficient × column with a least value. */
export interface BinaryProgramme {
  readonly sense: "Minimize" | "Maximize";
  readonly objective: readonly number[];
  readonly atLeast: readonly {
    readonly terms: readonly (readonly [coefficient: number, column: number])[];
    readonly least: number;
  }[];
}

// The package's one declaration file is read as CommonJS, its ES build exports the loader itself.
const loadHighs = highsModule as unknown as () => Promise<Highs>;

/** Loads HiGHS once; the function returned gives the proven optimum, or undefined where it did not prove one. */
export async function highsBinarySolver(): Promise<
  (programme: BinaryProgramme) => number | undefined
> {
  const highs = await loadHighs();
  return (programme) =>
    highs.withModel({ format: "lp", data: lpText(programme) }, (model) => {
      model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-6 });
      model.run();
      if (model.getModelStatus() !== highs.constants.modelStatus.optimal) return undefined;
      // In the order of the columns' first appearance: that of the objective, which names every column.
      return model
        .getSolution()
        .colValue.reduce(
          (sum: number, value: number, column: number) =>
            sum + (value > 0.5 ? (programme.objective[column] ?? 0) : 0),
          0,
        );
    });
}

const signed = (coefficient: number, column: number): string =>
  `${coefficient < 0 ? "-" : "+"} ${Math.abs(coefficient)} x${column}`;

function lpText({ sense, objective, atLeast }: BinaryProgramme): string {
  return [
    sense,
    ` value: ${objective.map(signed).join("\n ")}`,
    "Subject To",
    ...atLeast.map(
      ({ terms, least }, row) =>
        ` r${row}: ${terms.map(([coefficient, column]) => signed(coefficient, column)).join("\n ")} >= ${least}`,
    ),
    "Binary",
    objective.map((_, column) => `x${column}`).join("\n"),
    "End",
  ].join("\n");
}
