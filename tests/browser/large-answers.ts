import type { CommonalityAnswer } from "../../api/contract/commonality.contract.ts";
import { seededDraws } from "../tools/seeded-draws.ts";

const indices = {
  models: 300,
  items: 900,
  distinctParts: 3000,
  lines: 0,
  usedByOneModelOnly: 0,
  degreeOfCommonality: 2,
  totalConstantCommonality: 0.1,
  componentCommonality: 0.1,
  weightedCommonality: null,
  distinctKits: 300,
  maximalKits: 200,
};

/** A generated fleet of the size the matrix is measured at: 300 models in 30 categories by 3 000 parts. Seeded. */
export function largeCommonality(): CommonalityAnswer {
  const draw = seededDraws(20261125);
  const models = Array.from({ length: 300 }, (_, index) => ({
    id: `Model:${index}`,
    name: `Make ${index % 7} M-${String(index).padStart(3, "0")}`,
    category: `category ${Math.floor(index / 10)}`,
    maker: `Make ${index % 7}`,
    items: 3,
    parts: 0,
  }));
  const cells: [number, number, number][] = [];
  const parts = Array.from({ length: 3000 }, (_, column) => {
    const family = Math.floor(draw() * 30);
    const takers = models
      .map((_, row) => row)
      .filter((row) => draw() < (Math.floor(row / 10) === family ? 0.5 : 0.006));
    const rows = takers.length === 0 ? [family * 10] : takers;
    for (const row of rows) cells.push([row, column, 1]);
    return {
      id: `Part:${column}`,
      name: `${String(column * 37).padStart(6, "0")}-K`,
      description: "Shaft seal",
      maker: `Make ${column % 7}`,
      models: rows.length,
    };
  });
  return {
    scope: {},
    sentence: "300 models take 3 000 parts.",
    whole: { ...indices, lines: cells.length },
    categories: [],
    vessels: [],
    kits: [],
    likeness: [],
    opportunities: [],
    matrix: { models, parts, cells },
    notices: [],
  };
}
