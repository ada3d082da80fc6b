/** What the office's screens ask of the server, and how much of a large file has gone. */
import { useState } from "preact/hooks";
import { ApiError } from "../../api/client";
import type { components } from "../../api/schema";
import { t } from "../../language";
import { useLoaded } from "../../parts/use";
import { callSignedIn } from "../../sync/loop";

export type Schemas = components["schemas"];
export type Revision = Schemas["PlanRevision"];

/** A figure that a plan asks for. */
export interface Asked {
  readonly uom: string;
  readonly what: string;
}

/** The answer of a route, and why there is none. */
export function useAsked<T>(path: string, inputs: unknown[]): { found: T | undefined; says: string } {
  const [says, setSays] = useState("");
  const found = useLoaded<T | undefined>(
    () =>
      callSignedIn<T>(path).then(
        (answer) => {
          setSays("");
          return answer;
        },
        (error: Error) => {
          setSays(error.message);
          return undefined;
        },
      ),
    [path, ...inputs],
  );
  return { found, says };
}

/** Send a value, and tell meanwhile which part of it has gone, from 0 to 1. */
export async function sent<T>(path: string, value: unknown, onPart: (part: number) => void): Promise<T> {
  await callSignedIn("/jobs");
  return new Promise((done, fail) => {
    const request = new XMLHttpRequest();
    request.open("POST", `/api/v1${path}`);
    request.setRequestHeader("Content-Type", "application/json");
    request.responseType = "json";
    request.upload.onprogress = ({ loaded, total }) => onPart(total ? loaded / total : 0);
    request.upload.onload = () => onPart(1);
    request.onerror = () => fail(new ApiError(0, t("net-unreachable")));
    request.onload = () => {
      const body = request.response as (T & { message?: string }) | null;
      if (body && request.status < 300) done(body);
      else fail(new ApiError(request.status, body?.message ?? t("net-odd")));
    };
    request.send(JSON.stringify(value));
  });
}
