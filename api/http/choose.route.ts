import { chooseAnswer, chooseRequest } from "../contract/choose.contract.ts";
import { typedModel, typedReading } from "../contract/what-if.contract.ts";
import { chooseGear } from "../plans/choose-gear.ts";
import { readTypedMake } from "../plans/read-typed-make.ts";
import { kitProblems } from "./kit-problems.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const chooseRoute = postRoute(
  {
    path: "/api/choose",
    name: "chooseGear",
    summary: "Which make a position should have: price, spares, suppliers and survival of each",
    problems: [...kitProblems, "contents-circular"],
  },
  chooseRequest,
  chooseAnswer,
  ({ body }, { store, now }) => chooseGear(store, body, todayOf(now())),
);

export const typedMakeRoute = postRoute(
  {
    path: "/api/choose/reading",
    name: "readTypedMake",
    summary: "What would be understood of the lists of a make typed in on the spot",
    problems: ["key-taken", "columns-unmatched", "file-empty", "file-binary"],
  },
  typedModel,
  typedReading,
  ({ body }, { store }) => readTypedMake(store, body),
);
