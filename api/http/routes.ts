import { aboutRoute } from "./about.route.ts";
import { backupRoute, restoreRoute } from "./backup.route.ts";
import { chooseRoute, typedMakeRoute } from "./choose.route.ts";
import { commonalityRoute } from "./commonality.route.ts";
import { doubtRoute } from "./doubt.route.ts";
import { exportRoute } from "./export.route.ts";
import { findRoute } from "./find.route.ts";
import { historyRoutes } from "./history.route.ts";
import { imaginedRoute } from "./imagined.route.ts";
import { importRoute, importsRoute, undoRoute } from "./imports.route.ts";
import { kitRoute } from "./kit.route.ts";
import { minimumsRoute } from "./minimums.route.ts";
import { orderRoute } from "./order.route.ts";
import { ordersRoutes } from "./orders.route.ts";
import { overviewRoute } from "./overview.route.ts";
import { prepareRoute } from "./prepare.route.ts";
import { readinessRoutes } from "./readiness.route.ts";
import { recordRoutes } from "./records.route.ts";
import type { Route } from "./route.ts";
import { sampleRoute } from "./sample.route.ts";
import { simulationRoute } from "./simulation.route.ts";
import { standardiseRoute } from "./standardise.route.ts";
import { stockRoutes } from "./stock.route.ts";
import { suppliersRoute } from "./suppliers.route.ts";
import { voyageRoute } from "./voyage.route.ts";

/** Every route of the API, once: the app mounts them, OpenAPI describes them. */
export const routes: readonly Route[] = [
  aboutRoute,
  overviewRoute,
  ...readinessRoutes,
  imaginedRoute,
  findRoute,
  kitRoute,
  doubtRoute,
  prepareRoute,
  voyageRoute,
  minimumsRoute,
  simulationRoute,
  commonalityRoute,
  chooseRoute,
  typedMakeRoute,
  standardiseRoute,
  suppliersRoute,
  orderRoute,
  ...ordersRoutes,
  importsRoute,
  importRoute,
  undoRoute,
  sampleRoute,
  exportRoute,
  backupRoute,
  restoreRoute,
  ...recordRoutes,
  ...historyRoutes,
  ...stockRoutes,
];
