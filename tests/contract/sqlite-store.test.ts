import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { storeContract } from "./store-contract.ts";

storeContract("SQLite", async () => SqliteStore.open(":memory:"));
