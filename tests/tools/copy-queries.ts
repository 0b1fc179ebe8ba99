import { cpSync } from "node:fs";

// The compiler leaves them: queries that the built program reads at run time.
const folder = "api/store/neo4j/questions";
cpSync(folder, `dist/${folder}`, { recursive: true });
