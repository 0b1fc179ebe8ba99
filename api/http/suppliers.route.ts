import { suppliersAnswer, suppliersRequest } from "../contract/suppliers.contract.ts";
import { rankSuppliers } from "../plans/rank-suppliers.ts";
import { postRoute } from "./route.ts";

export const suppliersRoute = postRoute(
  {
    path: "/api/suppliers",
    name: "rankSuppliers",
    summary:
      "Which suppliers cover the gear: alone, the best few, the least for everything on sale",
    problems: ["not-found", "key-taken", "columns-unmatched", "file-empty"],
  },
  suppliersRequest,
  suppliersAnswer,
  ({ body }, { store }) => rankSuppliers(store, body),
);
