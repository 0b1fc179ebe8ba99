import { commonalityAnswer, commonalityRequest } from "../contract/commonality.contract.ts";
import { measureCommonality } from "../plans/measure-commonality.ts";
import { postRoute } from "./route.ts";

export const commonalityRoute = postRoute(
  {
    path: "/api/commonality",
    name: "measureCommonality",
    summary: "How alike the gear is: indices, spares kits, likeness, the parts matrix",
    problems: ["not-found", "key-taken", "columns-unmatched", "file-empty"],
  },
  commonalityRequest,
  commonalityAnswer,
  ({ body }, { store }) => measureCommonality(store, body),
);
