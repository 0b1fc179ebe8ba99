import { storeContract } from "../contract/store-contract.ts";
import { onRealServer } from "./test-server.ts";

onRealServer("Neo4j", ({ emptyStore }) => {
  storeContract("Neo4j", () => emptyStore(), 25);
});
