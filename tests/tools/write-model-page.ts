import { writeFileSync } from "node:fs";
import { modelPage } from "../../graph-schema/derive/model-page.ts";

writeFileSync(new URL("../../graph-schema/MODEL.md", import.meta.url), modelPage());
