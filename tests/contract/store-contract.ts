import { afterEach, describe } from "vitest";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { backupContract } from "./parts/backup-contract.ts";
import { batchContract } from "./parts/batch-contract.ts";
import { changesContract } from "./parts/changes-contract.ts";
import { journalContract } from "./parts/journal-contract.ts";
import { pageContract } from "./parts/page-contract.ts";
import { randomContract } from "./parts/random-contract.ts";
import { readingContract } from "./parts/reading-contract.ts";
import { searchContract } from "./parts/search-contract.ts";
import { snapshotContract } from "./parts/snapshot-contract.ts";
import { undoContract } from "./parts/undo-contract.ts";
import { writingContract } from "./parts/writing-contract.ts";

/** Makes an empty store. It may empty those it made before: a server has one database for all. */
export type StoreFactory = () => Promise<GraphStore>;

/** What every store must do, run against the stores that `factory` makes. */
export function storeContract(name: string, factory: StoreFactory, randomRuns = 80): void {
  describe(`${name} keeps the store contract`, () => {
    const opened: GraphStore[] = [];
    afterEach(async () => {
      for (const store of opened.splice(0)) await store.close();
    });
    const open: StoreFactory = async () => {
      const store = await factory();
      opened.push(store);
      return store;
    };
    writingContract(open);
    readingContract(open);
    journalContract(open);
    undoContract(open);
    batchContract(open);
    changesContract(open);
    pageContract(open);
    searchContract(open);
    snapshotContract(open);
    backupContract(open);
    randomContract(open, randomRuns);
  });
}
