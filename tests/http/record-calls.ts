import request from "supertest";
import { undoChangeAnswer } from "../../api/contract/history.contract.ts";
import { changeAnswer, recordAnswer, recordsAnswer } from "../../api/contract/records.contract.ts";
import { checked } from "./checked.ts";
import type { SmallApp } from "./small-app.ts";

/** What a test asks of records over HTTP; every answer is checked against its contract. `fleet` is the app at hand. */
export function recordCalls(fleet: () => SmallApp) {
  const list = async (query: object) =>
    checked(
      await request(fleet().app).get("/api/records").query(query),
      "/api/records",
      "get",
      recordsAnswer,
    );
  const show = async (id: string) =>
    checked(
      await request(fleet().app).get(`/api/records/${encodeURIComponent(id)}`),
      "/api/records/{id}",
      "get",
      recordAnswer,
    );
  const edit = (id: string, body: object) =>
    request(fleet().app)
      .patch(`/api/records/${encodeURIComponent(id)}`)
      .send(body);
  const edited = async (id: string, body: object) =>
    checked(await edit(id, body), "/api/records/{id}", "patch", changeAnswer);
  const undo = async (sequence: number | null) =>
    checked(
      await request(fleet().app).post(`/api/history/${sequence}/undo`),
      "/api/history/{sequence}/undo",
      "post",
      undoChangeAnswer,
    );
  const partCalled = async (partNumber: string) => {
    const { rows } = await list({ label: "Part", where: `partNumber=${partNumber}` });
    const [row] = rows;
    if (row === undefined) throw new Error(`no part ${partNumber}`);
    return row;
  };
  return { list, show, edit, edited, undo, partCalled };
}
