import type { WhereToLook } from "../../../api/contract/readiness.contract.ts";
import { writeRoute } from "../../routing/route.ts";

/** The address on this screen of where a figure is to be seen whole. */
export const followAddress = ({ page, query }: WhereToLook): string =>
  writeRoute(page, Object.entries(query));
