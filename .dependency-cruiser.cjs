/** The screen's boundary is held by Biome (biome.json, ui/**): swc, which reads the rest here, does not parse TSX.
 *  One way through the house: graph-schema <- importers, scoring <- store, plans <- http, cli; ui sees contract and schema. */
const only = (name, from, allowed) => ({
  name,
  severity: "error",
  from: { path: from },
  to: { path: "^(api|ui|importers|graph-schema|tests)/", pathNot: allowed },
});
module.exports = {
  forbidden: [
    { name: "no-cycles", severity: "error", from: {}, to: { circular: true } },
    only("schema-stands-alone", "^graph-schema/", "^graph-schema/"),
    only("errors-stand-alone", "^api/errors/", "^api/errors/"),
    only("importers-see-schema", "^importers/", "^(importers|graph-schema|api/errors)/"),
    only("scoring-is-pure", "^api/scoring/", "^(api/scoring|graph-schema|api/errors)/"),
    {
      name: "scoring-no-io",
      severity: "error",
      from: { path: "^api/scoring/" },
      to: { dependencyTypes: ["core"] },
    },
    only("contract-sees-schema", "^api/contract/", "^(api/contract|graph-schema)/"),
    only(
      "store-sees-core",
      "^api/store/",
      "^(api/store|api/scoring/snapshot|importers/change-set|graph-schema|api/errors)",
    ),
    only(
      "plans-see-core",
      "^api/plans/",
      "^(api/(plans|scoring|store|contract|errors)|importers|graph-schema)/",
    ),
    {
      name: "http-not-cli",
      severity: "error",
      from: { path: "^api/http/" },
      to: { path: "^(api/cli|ui)/" },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    parser: "swc",
    doNotFollow: { path: "node_modules" },
    exclude: { path: "^dist/" },
  },
};
