import { expect, it } from "vitest";
import { readMinimumList } from "../../api/plans/minimums/read-minimum-list.ts";
import { ownListExample } from "../../ui/pages/crossing/own-list-example.ts";
import { readListText } from "../../ui/pages/crossing/read-list-text.ts";

it("the example of an own minimum list is read without a fault", () => {
  const { title, rules } = readMinimumList("example", ownListExample);
  expect(title).toBe("Our own minimum list");
  expect(rules.map(({ basis }) => basis)).toEqual(["unit", "kind", "ship"]);
});

it("a list's file is read as spreadsheets write it, and refused where it is none", () => {
  const words = "Grète's Liste; ü";
  expect(readListText(new TextEncoder().encode(words))).toEqual({ text: words });
  // Code points of windows-1252 (WHATWG Encoding Standard, index windows-1252): è is E8, ü is FC.
  expect(readListText(Uint8Array.from([0x47, 0x72, 0xe8, 0x74, 0x65, 0xfc]))).toEqual({
    text: "Grèteü",
  });
  expect(readListText(Uint8Array.from([0xff, 0xfe, 0x41, 0x00]))).toEqual({ text: "A" });
  expect(readListText(Uint8Array.from([0x50, 0x4b, 0x03, 0x00]))).toHaveProperty("fault");
  expect(readListText(new Uint8Array(1_000_000).fill(65))).toHaveProperty("fault");
});
