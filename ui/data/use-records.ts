import type { RecordDocument } from "../../api/contract/records.contract.ts";
import { listRecords, type RecordsQuestion } from "./records-client.ts";
import { type Paged, usePaged } from "./use-paged.ts";

/** Records of a label, as many as have been fetched. */
export type Records = Paged<RecordDocument>;

const emptyPlace = (index: number): RecordDocument => ({
  id: `place ${index}`,
  label: "",
  name: "…",
  title: "…",
  version: 0,
  properties: {},
  extra: {},
  owners: [],
});

/** Fetches records page by page as they come into sight; `isWhole` fetches every page at once, for lists that stay short. */
export const useRecords = (
  question: Omit<RecordsQuestion, "offset" | "limit">,
  isWhole = false,
): Records =>
  usePaged({
    key: `records ${JSON.stringify(question)}`,
    page: (offset, limit, signal) => listRecords({ ...question, offset, limit }, signal),
    emptyPlace,
    isWhole,
  });
