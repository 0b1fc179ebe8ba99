import { describe, expect, it } from "vitest";
import { whatIf } from "../../api/contract/what-if.contract.ts";
import {
  type Change,
  imagining,
  readImagined,
  whatIfOf,
  writeImagined,
} from "../../ui/components/imagined/imagined-changes.ts";
import { readRoute, writeRoute } from "../../ui/routing/route.ts";

const changes: readonly Change[] = [
  { kind: "replace", item: "FittedItem:1", model: "Model:2" },
  {
    kind: "add",
    vessel: "Vessel:1",
    position: "Spare winch, 2nd",
    model: "Model:2",
    count: 3,
    serves: "",
  },
  {
    kind: "add",
    vessel: "Vessel:1",
    position: "Genset",
    model: "Model:3",
    count: 1,
    serves: "RequiredFunction:4",
  },
  { kind: "remove", item: "FittedItem:5" },
  { kind: "rates", part: "Part:6", times: 0.5 },
  { kind: "loseSuppliers", supplier: "Supplier:7" },
];

const through = (text: string) => readRoute(writeRoute("crossing", [["imagine", text]])).query;

describe("what an address imagines", () => {
  it("comes back as it was imagined, in its order", () => {
    expect(readImagined(through(writeImagined(changes)))).toEqual(changes);
  });

  it("is the what-if that the contract reads", () => {
    const asked = whatIfOf(through(writeImagined(changes)));
    expect(whatIf.parse(asked)).toEqual({
      add: [
        { vessel: "Vessel:1", position: "Spare winch, 2nd", model: "Model:2", count: 3 },
        {
          vessel: "Vessel:1",
          position: "Genset",
          model: "Model:3",
          count: 1,
          serves: ["RequiredFunction:4"],
        },
      ],
      replace: [{ item: "FittedItem:1", model: "Model:2" }],
      remove: [{ item: "FittedItem:5" }],
      loseSuppliers: ["Supplier:7"],
      rates: [{ part: "Part:6", times: 0.5 }],
    });
  });

  it("keeps signs of its own out of names that are typed", () => {
    const [add] = changes.slice(1);
    const odd = { ...add, position: " Deck!*winch " } as Change;
    expect(readImagined(through(writeImagined([odd])))).toEqual([
      { ...add, position: "Deck  winch" },
    ]);
  });

  it("leaves out what cannot be read, and asks as ever where nothing is imagined", () => {
    const broken =
      "replace*FittedItem:1!rates*Part:1*0!rates*Part:1*often!paint*red!remove*FittedItem:2!";
    expect(readImagined(through(broken))).toEqual([{ kind: "remove", item: "FittedItem:2" }]);
    expect(whatIfOf(new Map())).toBeUndefined();
    expect(imagining({ vessel: "A" }, new Map())).toEqual({ vessel: "A" });
  });
});
