import type { UndoChangeAnswer } from "../../api/contract/history.contract.ts";
import type {
  ChangeAnswer,
  CreateRequest,
  DeleteAnswer,
  DependantsAnswer,
  EditRequest,
  LinkAnswer,
  LinkRequest,
  RecordAnswer,
  RecordsAnswer,
} from "../../api/contract/records.contract.ts";
import { ask, change, send } from "./ask.ts";

/** Which page of which records, in which order. */
export interface RecordsQuestion {
  readonly label: string;
  readonly offset?: number;
  readonly limit?: number;
  readonly sort?: string;
  readonly text?: string;
  readonly where?: readonly string[];
}

const one = (id: string) => `/api/records/${encodeURIComponent(id)}`;

const link = (type: string, from: string, to: string) =>
  `/api/links/${encodeURIComponent(type)}/${encodeURIComponent(from)}/${encodeURIComponent(to)}`;

/** A page of records. */
export function listRecords(
  question: RecordsQuestion,
  signal?: AbortSignal,
): Promise<RecordsAnswer> {
  const search = new URLSearchParams({ label: question.label });
  if (question.offset !== undefined) search.set("offset", String(question.offset));
  if (question.limit !== undefined) search.set("limit", String(question.limit));
  if (question.sort !== undefined) search.set("sort", question.sort);
  if (question.text !== undefined && question.text !== "") search.set("text", question.text);
  for (const condition of question.where ?? []) search.append("where", condition);
  return ask<RecordsAnswer>(`/api/records?${search}`, signal === undefined ? {} : { signal });
}

export const showRecord = (id: string, signal?: AbortSignal): Promise<RecordAnswer> =>
  ask<RecordAnswer>(one(id), signal === undefined ? {} : { signal });

export const editRecord = (id: string, edit: EditRequest): Promise<ChangeAnswer> =>
  send<ChangeAnswer>(one(id), edit, "PATCH");

export const createRecord = (made: CreateRequest): Promise<ChangeAnswer> =>
  send<ChangeAnswer>("/api/records", made);

export const showDependants = (id: string): Promise<DependantsAnswer> =>
  ask<DependantsAnswer>(`${one(id)}/dependants`);

export const deleteRecord = (id: string, version: number, records: number): Promise<DeleteAnswer> =>
  change<DeleteAnswer>(`${one(id)}?version=${version}&records=${records}`, { method: "DELETE" });

export const editLink = (
  type: string,
  from: string,
  to: string,
  edit: LinkRequest,
): Promise<LinkAnswer> => send<LinkAnswer>(link(type, from, to), edit, "PUT");

export const takeLinkAway = (
  type: string,
  from: string,
  to: string,
  version: number,
): Promise<LinkAnswer> =>
  change<LinkAnswer>(`${link(type, from, to)}?version=${version}`, { method: "DELETE" });

export const undoChange = (sequence: number): Promise<UndoChangeAnswer> =>
  change<UndoChangeAnswer>(`/api/history/${sequence}/undo`, { method: "POST" });
