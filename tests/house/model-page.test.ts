import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { modelPage } from "../../graph-schema/derive/model-page.ts";

test("the model page says what the declarations say (npm run model-page writes it)", () => {
  const page = readFileSync(new URL("../../graph-schema/MODEL.md", import.meta.url), "utf8");
  expect(page).toBe(modelPage());
});
