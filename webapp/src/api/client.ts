/** Calls to the server. An answer counts only where it is of our media type: a captive portal's page is none. */

import { signal } from "@preact/signals";
import { t } from "../language";
import type { components } from "./schema";

export type PushAnswer = components["schemas"]["PushAnswer"];
export type Feed = components["schemas"]["Feed"];
export type Review = components["schemas"]["Review"];
export type OpenedFlag = components["schemas"]["OpenedFlag"];
export type Flag = components["schemas"]["Flag"];
export type Person = components["schemas"]["Person"];

/** status 0: no server was reached, or what answered was not ours. */
export class ApiError extends Error {
  constructor(
    readonly status: number,
    message: string,
    readonly retryAfter = 0,
  ) {
    super(message);
  }
}

const OURS = /^application\/(vnd\.seamtag\+json|json)/;
const PATIENCE = 30_000;

/** When the server last answered, in milliseconds; 0 for never since the app started. */
export const heard = signal(0);

/** A call. longer: milliseconds to wait beyond what any call may take, where much is sent. */
export async function call<T>(path: string, options: RequestInit = {}, longer = 0): Promise<T> {
  let answer: Response;
  try {
    answer = await fetch(`/api/v1${path}`, { ...options, signal: AbortSignal.timeout(PATIENCE + longer) });
  } catch {
    throw new ApiError(0, t("net-unreachable"));
  }
  const ours = OURS.test(answer.headers.get("Content-Type") ?? "");
  if (answer.status === 204) return undefined as T;
  const body: unknown = ours ? await answer.json().catch(() => null) : null;
  if (!answer.ok) {
    const message = (body as { message?: string } | null)?.message ?? t("net-odd");
    throw new ApiError(ours ? answer.status : 0, message, Number(answer.headers.get("Retry-After") ?? 0));
  }
  if (body === null) throw new ApiError(0, t("net-between"));
  heard.value = Date.now();
  return body as T;
}

export function post<T>(path: string, value: unknown): Promise<T> {
  return call<T>(path, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(value),
  });
}
