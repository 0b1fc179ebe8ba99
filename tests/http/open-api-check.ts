import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { describeApi } from "../../api/http/describe-api.ts";
import { routes } from "../../api/http/routes.ts";

interface Described {
  readonly paths: Record<string, Record<string, DescribedRoute>>;
  readonly components: { readonly schemas: Record<string, object> };
}

interface DescribedRoute {
  readonly operationId: string;
  readonly responses: Record<string, { readonly content?: Record<string, { schema?: object }> }>;
}

export const description = describeApi(routes, "0.0.0") as unknown as Described;

/** Faults of an answer against the schema the OpenAPI description declares for it; empty when it fits. */
export function openApiFaults(
  path: string,
  method: string,
  status: number,
  mediaType: string,
  answer: unknown,
): readonly string[] {
  const schema =
    description.paths[path]?.[method]?.responses[String(status)]?.content?.[mediaType]?.schema;
  if (schema === undefined) return [`${method} ${path} declares no ${mediaType} for ${status}`];
  const ajv = new Ajv2020({ strict: false, allErrors: true });
  // A plain function under two module systems.
  (addFormats as unknown as (ajv: Ajv2020) => void)(ajv);
  const validate = ajv.compile({
    $id: "https://test.invalid/api",
    ...JSON.parse(
      JSON.stringify({ ...schema, $defs: description.components.schemas }).replaceAll(
        "#/components/schemas/",
        "#/$defs/",
      ),
    ),
  });
  if (validate(answer)) return [];
  return (validate.errors ?? []).map((fault) => `${fault.instancePath} ${fault.message ?? ""}`);
}
