import { expect } from "vitest";
import { nodeLabelNames, relationshipTypeNames } from "../../graph-schema/index.ts";
import type { KnownGraph } from "../../importers/change-set.ts";
import { type ImportFileOptions, importFile, type Proposal } from "../../importers/index.ts";
import { contentOf, knownGraphOf } from "./known-graph-of.ts";

const nothing = knownGraphOf();

/** A text taken in as a file, against an empty graph if none is given. */
export const takeText = (
  text: string,
  options: ImportFileOptions = {},
  graph: KnownGraph = nothing,
): Promise<Proposal> => importFile(new TextEncoder().encode(text), graph, options);

/** All that a graph holds. */
export const content = (graph: KnownGraph): unknown =>
  contentOf(graph, nodeLabelNames, relationshipTypeNames);

export const mapped = ({ matching }: Proposal): Record<string, string | undefined> =>
  Object.fromEntries(matching.columns.map(({ header, target }) => [header, target]));

export const names = (
  graph: KnownGraph,
  label: Parameters<KnownGraph["nodes"]>[0],
  property: string,
) => [...graph.nodes(label).values()].map(({ properties }) => properties[property]).sort();

export const codes = ({ faults }: Proposal) => faults.map(({ code }) => code);
export const noticeCodes = ({ notices }: Proposal) => notices.map(({ code }) => code);

/** The account of rows, which must add up. */
export const account = ({ rows }: Proposal) => {
  expect(rows.read).toBe(rows.accepted + rows.rejected + rows.skipped);
  return rows;
};
